// The crossover's sum in the room: what is dialled in and what is suggested beside the joint setting that would be best there.

import type { VNode } from 'preact';
import type { CrossoverInRoom, RoomOutcome } from '../../core/fieldFigures.ts';
import type { CrossoverFigures } from '../../core/setup.ts';
import { WideTable } from './section.tsx';
import { TableHead } from './tableHead.tsx';
import { slopeText } from './units.ts';
import type { View } from './view.ts';
import { shown } from './words.ts';

/** Less is within what a prediction can be off: common practice, no source. */
const WORTH_SAYING_DB = 0.3;

export function InRoom({
  crossover,
  view: { setup, show },
}: {
  readonly crossover: CrossoverFigures;
  readonly view: View;
}): VNode | null {
  const own = (setup.field?.crossovers ?? []).find(
    ({ path, set }) => path.join('.') === crossover.path.join('.') && set === crossover.set,
  );
  if (own === undefined) return null;
  return (
    <>
      <h3>With the room in the sum</h3>
      <p>{verdict(own, show)}</p>
      <WideTable label="With the room in the sum" isTight>
        <TableHead
          columns={[
            'which',
            { figures: 'frequency' },
            'slope',
            'polarity',
            { figures: 'subwoofer later by' },
            { figures: 'ripple' },
            { figures: 'deviation' },
          ]}
        />
        <tbody>
          {named(own).map(({ name, outcome }) => (
            <tr key={name}>
              <th scope="row">{name}</th>
              <td class="number">{show.frequency(outcome.filter.frequency_hz)}</td>
              <td>{slopeText(outcome.filter.slope_db_oct)}</td>
              <td>{outcome.polarity}</td>
              <td class="number">{shown(outcome.subDelay_s, show.time)}</td>
              <td class="number">{show.level(outcome.ripple_db)}</td>
              <td class="number">{show.level(outcome.deviation_db)}</td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </>
  );
}

function named({
  current,
  practice,
  suggested,
  best,
}: CrossoverInRoom): readonly { readonly name: string; readonly outcome: RoomOutcome }[] {
  const told = [
    { name: 'as dialled in', outcome: current },
    { name: 'start that practice names', outcome: practice },
    { name: 'best sum', outcome: suggested },
    { name: 'best in the room', outcome: best === current ? null : best },
  ];
  return told.flatMap(({ name, outcome }) => (outcome === null ? [] : [{ name, outcome }]));
}

function verdict(
  { anechoicRipple_db, current, best }: CrossoverInRoom,
  show: View['show'],
): string {
  const beside = `At the reference seat the ripple within an octave is ${show.level(current.ripple_db)} with room and equalisers, ${show.level(anechoicRipple_db)} without.`;
  const less_db = current.deviation_db - best.deviation_db;
  return less_db < WORTH_SAYING_DB
    ? `${beside} No joint setting of the bounded search is better by as much as a prediction can tell.`
    : `${beside} Another joint setting would deviate ${show.level(less_db)} less from 40 Hz to 160 Hz, predicted: try it after measuring.`;
}
