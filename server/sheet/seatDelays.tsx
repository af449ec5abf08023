// One delay for several seats: what the subwoofers' delay comes to at each, and the compromises.

import type { VNode } from 'preact';
import type { SeatDelayChoice, SeatDelayFigures } from '../../core/setup.ts';
import { WideTable } from './section.tsx';
import { placeOf, ToSource } from './source.tsx';
import { TableHead } from './tableHead.tsx';
import { phaseText } from './units.ts';
import type { View } from './view.ts';
import { listed, shown, signed, typeset } from './words.ts';

export function SeatDelays({ setup, show }: View): VNode | null {
  const all = setup.seatDelays ?? [];
  if (all.length === 0) return null;
  return (
    <>
      <h3>One delay for several seats</h3>
      <p>
        Seats differ by path, and no delay of the subwoofers suits all of them: phase where they
        meet the mains, as dialled in, and what another delay would leave.
      </p>
      {all.map((figures) => (
        <OneCrossover key={figures.path.join('.')} figures={figures} show={show} />
      ))}
    </>
  );
}

function OneCrossover({
  figures,
  show,
}: {
  readonly figures: SeatDelayFigures;
  readonly show: View['show'];
}): VNode {
  const { path, mains, subs, crossover_hz, seats, spread_s, choices } = figures;
  return (
    <div {...placeOf(path)}>
      <p>
        <ToSource path={path}>{listed(subs)}</ToSource>
        {` with ${listed(mains)} at ${show.frequency(crossover_hz)}: `}
        {seats
          .map(
            ({ seat, difference_s, phase_rad }) =>
              `${seat} ${signed(difference_s, show.time(difference_s))}, ${typeset(phaseText(phase_rad))}`,
          )
          .join('; ')}
        {`. The seats are ${show.time(spread_s)} apart.`}
      </p>
      <WideTable label="One delay for several seats">
        <TableHead
          columns={[
            'which',
            { figures: 'delay more than now' },
            { figures: 'worst seat' },
            { figures: 'root mean square' },
            { figures: 'worst seat loses' },
          ]}
        />
        <tbody>
          {choices.map((choice) => (
            <tr key={choice.for}>
              <th scope="row">{NAMES[choice.for]}</th>
              <td class="number">{signed(choice.more_s, shown(choice.more_s, show.time))}</td>
              <td class="number">{phaseText(choice.worstPhase_rad)}</td>
              <td class="number">{phaseText(choice.rmsPhase_rad)}</td>
              <td class="number">{show.level(-choice.worstLoss_db)}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </div>
  );
}

const NAMES: Readonly<Record<SeatDelayChoice['for'], string>> = {
  reference: 'right at the reference seat',
  mean_square: 'least over all seats',
  worst: 'least at the worst seat',
};
