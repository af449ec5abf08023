// Decay times of a session's takes by octave, over the mask of the listening-room standards.

import { scaleLinear } from 'd3-scale';
import { area } from 'd3-shape';
import type { VNode } from 'preact';
import type {
  MeasuredDecay,
  MeasuredSession,
  MeasuredTake,
} from '../../../core/measured/measuredFigures.ts';
import { decayMask_s } from '../../../core/rules/decayMask.ts';
import { frequencyScale } from '../chart/frequencyAxis.ts';
import { Legend, type LegendEntry } from '../chart/legend.tsx';
import { Curves, fieldHeight_px, Plot, percent } from '../chart/plot.tsx';
import { WideTable } from '../section.tsx';
import { ToSource } from '../source.tsx';
import type { View } from '../view.ts';
import { MISSING } from '../words.ts';

const HEIGHT_PX = 230;
/** Octaves that the sheet has room for. */
const BANDS_HZ = [31.5, 63, 125, 250, 500, 1000, 2000, 4000, 8000];
/** More takes would be told apart by nobody. */
const MOST_TAKES = 4;
/** Columns of more takes than this have no room beside the chart. */
const MOST_BESIDE = 2;
/** Outlines about 0, 0: takes differ by form as well as by colour. */
const MARKS = [
  'M-5 0 A5 5 0 1 0 5 0 A5 5 0 1 0 -5 0 Z',
  'M-4.5 -4.5 H4.5 V4.5 H-4.5 Z',
  'M0 -6 L5.5 4.5 H-5.5 Z',
  'M0 -6 L6 0 L0 6 L-6 0 Z',
];
const MASK: LegendEntry = {
  class: 'envelope',
  text: 'what EBU Tech 3276 and ITU-R BS.1116 ask for',
  mark: 'M-13 -5 H13 V5 H-13 Z',
};

interface SessionProps extends View {
  readonly session: MeasuredSession;
}

export function DecayBands({ session, setup, show }: SessionProps): VNode | null {
  const takes = session.takes
    .filter(({ octaves }) => octaves.some((one) => timeOf(one) !== null))
    .slice(0, MOST_TAKES);
  if (takes.length === 0) return null;
  const nominal_s = setup.space?.nominalDecayTime_s ?? null;
  const tolerance = setup.room.policy.tolerances.decay_time ?? null;
  const maskAt = (frequency_hz: number) =>
    nominal_s === null ? null : decayMask_s(nominal_s, frequency_hz, tolerance);
  return (
    <>
      <h3>Decay by octave</h3>
      <div class={takes.length <= MOST_BESIDE ? 'columns charts' : undefined}>
        <DecayChart takes={takes} maskAt={maskAt} />
        <DecayTable session={session} takes={takes} maskAt={maskAt} show={show} />
      </div>
    </>
  );
}

type MaskAt = (frequency_hz: number) => ReturnType<typeof decayMask_s>;

function timeOf({ t20_s, modalDecay_s }: MeasuredDecay): number | null {
  return t20_s ?? modalDecay_s;
}

function DecayChart({
  takes,
  maskAt,
}: {
  readonly takes: readonly MeasuredTake[];
  readonly maskAt: MaskAt;
}): VNode {
  const times_s = takes.flatMap(({ octaves }) => octaves.map(timeOf)).filter((t) => t !== null);
  const limits_s = BANDS_HZ.flatMap((band_hz) => maskAt(band_hz)?.most_s ?? []);
  const most_s = Math.ceil(Math.max(0.5, ...times_s, ...limits_s) * 10) / 10;
  const across = frequencyScale(25, 10_000);
  const down = scaleLinear().domain([most_s, 0]).range([0, 1000]);
  const masked = BANDS_HZ.filter((band_hz) => maskAt(band_hz) !== null);
  const mask = area<number>()
    .x((band_hz) => across(band_hz) * 1000)
    .y0((band_hz) => down(Math.max(0, maskAt(band_hz)?.least_s ?? 0)))
    .y1((band_hz) => down(maskAt(band_hz)?.most_s ?? 0))
    .digits(1)(masked);
  const field_px = fieldHeight_px(HEIGHT_PX);
  return (
    <figure>
      <Plot
        label={`Measured decay times by octave of ${takes.map(({ take }) => take).join(', ')}, over the mask. The table gives the figures.`}
        height_px={HEIGHT_PX}
        across={{
          title: 'Hz',
          ticks: BANDS_HZ.map((band_hz) => ({ share: across(band_hz), text: tickText(band_hz) })),
        }}
        up={{
          title: 's',
          ticks: secondsTicks(most_s),
        }}
      >
        <Curves height_px={HEIGHT_PX}>
          {mask === null ? null : <path class="envelope" d={mask} />}
        </Curves>
        {takes.flatMap(({ take, octaves }, index) =>
          octaves.flatMap((one): readonly VNode[] => {
            const time_s = timeOf(one);
            if (time_s === null || !BANDS_HZ.includes(one.frequency_hz)) return [];
            return [
              <svg
                key={`${take} ${one.frequency_hz}`}
                x={percent(across(one.frequency_hz))}
                y={(down(time_s) / 1000) * field_px}
                overflow="visible"
                aria-hidden="true"
              >
                <path class={markClass(index)} d={MARKS[index % MARKS.length]} />
              </svg>,
            ];
          }),
        )}
      </Plot>
      <figcaption>
        <Legend
          entries={[
            ...(masked.length === 0 ? [] : [MASK]),
            ...takes.map(({ take }, index) => ({
              class: markClass(index),
              text: take,
              mark: MARKS[index % MARKS.length] ?? '',
            })),
          ]}
        />
      </figcaption>
    </figure>
  );
}

/** Short, so that nine of them stand beside each other in a narrow pane too. */
function tickText(band_hz: number): string {
  return band_hz < 1000 ? String(band_hz) : `${band_hz / 1000}k`;
}

function markClass(index: number): string {
  return `decay-mark decay-mark-${index % MARKS.length}`;
}

function secondsTicks(most_s: number) {
  const step_s = most_s <= 1 ? 0.1 : 0.5;
  return Array.from({ length: Math.floor(most_s / step_s + 1e-9) + 1 }, (_, index) => ({
    share: (index * step_s) / most_s,
    text: index % 2 === 0 ? (index * step_s).toFixed(1) : '',
  }));
}

function DecayTable({
  session,
  takes,
  maskAt,
  show,
}: Pick<SessionProps, 'session' | 'show'> & {
  readonly takes: readonly MeasuredTake[];
  readonly maskAt: MaskAt;
}): VNode {
  return (
    <WideTable label={`Decay times of ${session.session} by octave`} isTight>
      <thead>
        <tr>
          <th scope="col" class="number">
            octave
          </th>
          <th scope="col" class="number">
            mask
          </th>
          {takes.map(({ take, path }) => (
            <th key={take} scope="col" class="number">
              <ToSource path={path}>{take}</ToSource>
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {BANDS_HZ.map((band_hz) => {
          const mask = maskAt(band_hz);
          return (
            <tr key={band_hz}>
              <th scope="row" class="number">
                {show.frequency(band_hz)}
              </th>
              <td class="number">
                {mask === null
                  ? MISSING
                  : `${Math.max(0, mask.least_s).toFixed(2)} to ${show.decayTime(mask.most_s)}`}
              </td>
              {takes.map(({ take, octaves }) => (
                <td key={take} class="number">
                  {decayText(
                    octaves.find((one) => one.frequency_hz === band_hz),
                    show,
                  )}
                </td>
              ))}
            </tr>
          );
        })}
      </tbody>
    </WideTable>
  );
}

/** T20; the ringing of a mode where the band is too narrow for it. */
function decayText(one: MeasuredDecay | undefined, show: View['show']): string {
  if (one === undefined) return MISSING;
  if (one.t20_s !== null) return show.decayTime(one.t20_s);
  return one.modalDecay_s === null ? MISSING : `${show.decayTime(one.modalDecay_s)} (mode)`;
}
