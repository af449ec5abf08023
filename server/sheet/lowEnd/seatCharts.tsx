// From seat to seat: one channel at every seat in one chart, and how much the seats differ, channel by channel.

import type { VNode } from 'preact';
import type { FieldFigures, SpreadFigures } from '../../../core/fieldFigures.ts';
import { WideTable } from '../section.tsx';
import { placeOf } from '../source.tsx';
import { TableHead } from '../tableHead.tsx';
import type { View } from '../view.ts';
import { curveGroups, groupTitle, leadingGroup } from './curveGroups.ts';
import { type DrawnCurve, ResponseChart, rangeOf } from './responseChart.tsx';

/** Lines that differ by form; the reference seat has the thick one. */
const LINES = ['curve curve-main', 'curve curve-sub', 'curve curve-best', 'curve curve-practice'];

export function SeatCharts({
  field,
  ...view
}: View & { readonly field: FieldFigures }): VNode | null {
  const { setup, show } = view;
  const reference = field.seats.find(({ seat }) => seat === setup.referenceSeat) ?? field.seats[0];
  if (field.seats.length < 2 || reference === undefined) return null;
  const group = leadingGroup(curveGroups(field, reference));
  if (group === null) return null;
  const others = field.seats.filter((seat) => seat !== reference);
  const curves = [...others, reference].flatMap((seat, index): readonly DrawnCurve[] => {
    const channel = seat.channels.find(
      (one) => one.channel === group.first.channel && one.set === group.first.set,
    );
    const line = seat === reference ? 'curve curve-sum' : LINES[index % LINES.length];
    return channel === undefined
      ? []
      : [{ entry: { class: line ?? 'curve', text: seat.seat }, level_db: channel.level_db }];
  });
  return (
    <>
      <h3>From seat to seat</h3>
      <div class="columns charts">
        <ResponseChart
          label={`Predicted level over frequency of ${groupTitle(group)} at ${curves.length} seats. The table gives the figures.`}
          frequency_hz={field.frequency_hz}
          curves={curves}
          range={rangeOf(
            field.frequency_hz,
            curves.map(({ level_db }) => level_db),
          )}
          schroeder_hz={field.schroeder_hz}
          show={show}
        />
        <SpreadTable spread={field.spread} show={show} />
      </div>
    </>
  );
}

function SpreadTable({
  spread,
  show,
}: {
  readonly spread: readonly SpreadFigures[];
  readonly show: View['show'];
}): VNode | null {
  const [first] = spread;
  if (first === undefined) return null;
  return (
    <div>
      <p>
        {`How much the seats differ from ${show.frequency(first.from_hz)} to ${show.frequency(first.to_hz)}.`}
        <span class="note">{first.source}</span>
      </p>
      <WideTable label="How much the seats differ" isTight>
        <TableHead columns={['channel', { figures: 'mean spread' }, { figures: 'most' }]} />
        <tbody>
          {spread.map(({ channel, set, deviation_db, worst }) => (
            <tr key={`${channel} ${set}`} {...placeOf(['seats'])}>
              <th scope="row">{set === null ? channel : `${channel}, set ${set}`}</th>
              <td class="number">{show.level(deviation_db)}</td>
              <td class="number">
                {`${show.level(worst.level_db)} at ${show.frequency(worst.frequency_hz)}`}
              </td>
            </tr>
          ))}
        </tbody>
      </WideTable>
    </div>
  );
}
