// Section "Power": in which order to switch on and off, and what each circuit carries.

import type { VNode } from 'preact';
import type { PowerStep } from '../../core/setup.ts';
import { Section, WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import { currentText, powerText } from './units.ts';
import type { View } from './view.ts';
import { listed, MISSING, shown, typeset } from './words.ts';

export function PowerPart({ setup, show }: View): VNode {
  const { up, down } = setup.power;
  return (
    <Section id="power" title="Power" brief="The order follows from the wiring.">
      <div class="columns">
        <Steps title="Switch on" steps={up} />
        <Steps title="Switch off" steps={down} />
      </div>
      <Circuits setup={setup} show={show} />
      <p class="caution">
        Mains wiring and rigging are the work of licensed people, by the codes that hold where the
        room is.
      </p>
    </Section>
  );
}

function Steps({
  title,
  steps,
}: {
  readonly title: string;
  readonly steps: readonly PowerStep[];
}): VNode {
  return (
    <div>
      <h3>{title}</h3>
      {steps.length === 0 ? (
        <p class="missing">Not known: nothing is wired yet.</p>
      ) : (
        <ol class="steps">
          {steps.map(({ ids, reason }) => (
            <li key={ids.join()}>
              <b>{listed(ids)}</b>
              <span class="note">{typeset(reason)}</span>
            </li>
          ))}
        </ol>
      )}
    </div>
  );
}

function Circuits({ setup, show }: View): VNode | null {
  const { circuits } = setup.power;
  if (circuits.length === 0) return null;
  return (
    <WideTable label="Circuits">
      <TableHead
        columns={[
          'circuit',
          { figures: 'rated' },
          { figures: 'idle' },
          { figures: 'load' },
          { figures: 'share' },
          { figures: 'all at once, inrush' },
          'not recorded',
        ]}
      />
      <tbody>
        {circuits.map((circuit) => {
          const path = ['circuits', circuit.circuit];
          return (
            <tr key={circuit.circuit} {...placeOf(path)}>
              <th scope="row">
                <ToSource path={path}>{circuit.circuit}</ToSource>
              </th>
              <td class="number">{shown(circuit.rated_a, currentText)}</td>
              <td class="number">{powerText(circuit.idle_w)}</td>
              <td class="number">{currentText(circuit.load_a)}</td>
              <td class="number">{shown(circuit.share, show.share)}</td>
              <td class="number">{currentText(circuit.inrush_a)}</td>
              <td>{circuit.unknown.length === 0 ? MISSING : listed(circuit.unknown)}</td>
            </tr>
          );
        })}
      </tbody>
    </WideTable>
  );
}
