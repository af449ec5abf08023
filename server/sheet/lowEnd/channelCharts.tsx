// What each channel comes to at one seat: the sum with its envelope, and what its loudspeakers and subwoofers add to it.

import type { VNode } from 'preact';
import type { FieldFigures, SeatField } from '../../../core/fieldFigures.ts';
import { Fold } from '../section.tsx';
import type { View } from '../view.ts';
import { listed } from '../words.ts';
import { type CurveGroup, curveGroups, groupTitle } from './curveGroups.ts';
import { type DrawnCurve, type LevelRange, ResponseChart, rangeOf } from './responseChart.tsx';

/** So many are seen at once; the others are for who looks for them. */
const MOST_OPEN = 2;

interface ChannelChartsProps extends View {
  readonly field: FieldFigures;
  readonly seat: SeatField;
}

export function ChannelCharts({ field, seat, setup, show }: ChannelChartsProps): VNode {
  const groups = curveGroups(field, seat);
  const range = rangeOf(
    field.frequency_hz,
    groups.map(({ first }) => first.level_db),
  );
  const charts = (some: readonly CurveGroup[]): VNode => (
    <div class="columns charts">
      {some.map((group) => (
        <ChannelChart
          key={groupTitle(group)}
          group={group}
          field={field}
          seat={seat}
          range={range}
          setup={setup}
          show={show}
        />
      ))}
    </div>
  );
  const rest = groups.slice(MOST_OPEN);
  return (
    <>
      {charts(groups.slice(0, MOST_OPEN))}
      {rest.length === 0 ? null : (
        <Fold
          id="low-end-channels"
          summary={`Other channels: ${listed(rest.map((group) => groupTitle(group)))}`}
        >
          {charts(rest)}
        </Fold>
      )}
    </>
  );
}

interface ChannelChartProps extends ChannelChartsProps {
  readonly group: CurveGroup;
  readonly range: LevelRange;
}

function ChannelChart({ group, field, seat, range, setup, show }: ChannelChartProps): VNode {
  const { first } = group;
  const { lower_db, upper_db, extremes } = first;
  const said =
    extremes === null
      ? ''
      : ` Deepest dip ${show.level(extremes.dip.level_db)} at ${show.frequency(extremes.dip.frequency_hz)}, highest peak ${show.level(extremes.peak.level_db)} at ${show.frequency(extremes.peak.frequency_hz)}.`;
  return (
    <div>
      <h4>{groupTitle(group)}</h4>
      <ResponseChart
        label={`Predicted level over frequency of ${groupTitle(group)} at ${seat.seat}.${said} The table gives the figures.`}
        frequency_hz={field.frequency_hz}
        curves={[
          ...partsOf(group, seat, setup),
          { entry: { class: 'curve curve-sum', text: 'all together' }, level_db: first.level_db },
        ]}
        envelope={
          lower_db === null || upper_db === null ? null : { entry: ENVELOPE, lower_db, upper_db }
        }
        range={range}
        schroeder_hz={field.schroeder_hz}
        show={show}
      />
    </div>
  );
}

export const ENVELOPE = {
  class: 'envelope',
  text: 'where it may lie',
  mark: 'M-13 -5 H13 V5 H-13 Z',
} as const;

/** By themselves, of the channel that stands for the group. Where there is only one, it is the sum. */
function partsOf(
  { first }: CurveGroup,
  seat: SeatField,
  { room }: View['setup'],
): readonly DrawnCurve[] {
  if (first.sources.length < 2) return [];
  const subs = new Set(room.subwoofers.map(({ id }) => id));
  return first.sources.flatMap((source): readonly DrawnCurve[] => {
    const own = seat.sources.find((one) => one.source === source && one.set === first.set);
    const isSub = subs.has(source);
    return own === undefined
      ? []
      : [
          {
            entry: { class: `curve curve-${isSub ? 'sub' : 'main'}`, text: `${source} alone` },
            level_db: own.level_db,
          },
        ];
  });
}
