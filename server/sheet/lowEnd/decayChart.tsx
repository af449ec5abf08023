// How the low end fades at the reference seat after the sound has stopped: what still stands up late are the modes that ring.

import type { VNode } from 'preact';
import { useContext } from 'preact/hooks';
import type { FieldDecay, FieldFigures, SeatField } from '../../../core/fieldFigures.ts';
import { decayAtSeat } from '../../../core/withField.ts';
import { LiveContext } from '../live.ts';
import type { View } from '../view.ts';
import { curveGroups, groupTitle, leadingGroup } from './curveGroups.ts';
import { ResponseChart, rangeOf } from './responseChart.tsx';

interface DecayChartProps extends View {
  readonly field: FieldFigures;
  readonly seat: SeatField;
}

/** A tenth of a second apart, to where a well-damped room is silent. */
const STEP_S = 0.1;
const COUNT = 5;

/** In the pane of box rooms only: in others it takes seconds, which nobody waits for in the middle of typing. */
export function DecayChart({ field, seat, setup, show }: DecayChartProps): VNode | null {
  const { live, useLater } = useContext(LiveContext);
  const group = leadingGroup(curveGroups(field, seat));
  const isWanted = group !== null && (!live || field.method === 'box');
  const decay = useLater<FieldDecay | null>(
    () =>
      isWanted
        ? decayAtSeat(setup, {
            of: { channel: group.first.channel, set: group.first.set },
            seat: seat.seat,
            step_s: STEP_S,
            count: COUNT,
          })
        : null,
    [setup.room, isWanted],
  );
  if (decay === null || group === null) return null;
  const curves = decay.time_s.map((time_s, index) => ({
    entry: { class: `curve slice slice-${index}`, text: `${(time_s * 1000).toFixed(0)} ms` },
    level_db: decay.level_db[index] ?? [],
  }));
  return (
    <>
      <h3>How it fades</h3>
      <div class="columns charts">
        <ResponseChart
          label={`Predicted level over frequency of ${groupTitle(group)} at ${seat.seat}, ${curves.map(({ entry }) => entry.text).join(', ')} after the sound has stopped. ${lateText(decay, show)}`}
          frequency_hz={decay.frequency_hz}
          curves={curves}
          range={rangeOf(decay.frequency_hz, [
            decay.level_db[0] ?? [],
            (decay.level_db[0] ?? []).map((level_db) => level_db - 36),
          ])}
          schroeder_hz={field.schroeder_hz}
          show={show}
        />
        <p>
          {lateText(decay, show)}
          <span class="note">{`${groupTitle(group)}, so long after the sound has stopped.`}</span>
        </p>
      </div>
    </>
  );
}

/** The strongest of what is left in the last slice. */
function lateText({ frequency_hz, time_s, level_db }: FieldDecay, show: View['show']): string {
  const [first, last] = [level_db[0] ?? [], level_db.at(-1) ?? []];
  const at = last.reduce((best, level, index) => ((last[best] ?? 0) < level ? index : best), 0);
  const fallen_db = (first[at] ?? 0) - (last[at] ?? 0);
  return `Longest heard is ${show.frequency(frequency_hz[at] ?? 0)}: after ${((time_s.at(-1) ?? 0) * 1000).toFixed(0)} ms it has fallen by ${show.level(fallen_db)}.`;
}
