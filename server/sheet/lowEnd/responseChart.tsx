// A chart of levels over the low end: curves, the envelope of one of them, and where single figures stop meaning anything.

import { scaleLinear } from 'd3-scale';
import { area, line } from 'd3-shape';
import type { VNode } from 'preact';
import type { Show } from '../../../core/show.ts';
import { frequencyScale, frequencyTicks } from '../chart/frequencyAxis.ts';
import { Legend, type LegendEntry } from '../chart/legend.tsx';
import { Curves, fieldHeight_px, Plot, percent, type Tick } from '../chart/plot.tsx';
import { DRAWN_HZ } from './curveGroups.ts';

const HEIGHT_PX = 250;
/** A piece of a shaded band, for the key. */
const BLOCK = 'M-13 -5 H13 V5 H-13 Z';

export interface LevelRange {
  readonly top_db: number;
  readonly bottom_db: number;
}

export interface DrawnCurve {
  readonly entry: LegendEntry;
  /** null where nothing is known: the curve breaks off there. */
  readonly level_db: readonly (number | null)[];
}

export interface ShadedBand {
  readonly hz: readonly [number, number];
  readonly text: string;
}

interface ResponseChartProps {
  /** What it shows, for who cannot see it. */
  readonly label: string;
  readonly frequency_hz: readonly number[];
  readonly curves: readonly DrawnCurve[];
  readonly envelope?: {
    readonly entry: LegendEntry;
    readonly lower_db: readonly number[];
    readonly upper_db: readonly number[];
  } | null;
  readonly range: LevelRange;
  readonly schroeder_hz: number | null;
  /** Bands to be shaded, each with what it is. */
  readonly bands?: readonly ShadedBand[];
  /** What all of them are, for the key. */
  readonly shaded?: string;
  readonly show: Show;
  /** Left out for the low end alone. */
  readonly highest_hz?: number;
  /** Left out for sound pressure levels. */
  readonly unit?: string;
}

export function ResponseChart(props: ResponseChartProps): VNode {
  const {
    label,
    frequency_hz,
    curves,
    envelope = null,
    range,
    schroeder_hz,
    bands = [],
    show,
  } = props;
  const { highest_hz = DRAWN_HZ.to, unit = 'dB SPL' } = props;
  const to_hz = Math.min(highest_hz, frequency_hz.at(-1) ?? highest_hz);
  const view = { frequency_hz, range, to_hz };
  return (
    <figure data-hz={`${DRAWN_HZ.from} ${to_hz}`}>
      <Plot
        label={label}
        height_px={HEIGHT_PX}
        across={{ title: 'Hz', ticks: frequencyTicks(DRAWN_HZ.from, to_hz) }}
        up={{ title: unit, ticks: levelTicks(range) }}
      >
        {bands.map((band) => (
          <Band key={band.hz[0]} {...band} to_hz={to_hz} />
        ))}
        {schroeder_hz !== null && schroeder_hz < to_hz ? (
          <Statistics schroeder_hz={schroeder_hz} to_hz={to_hz} show={show} />
        ) : null}
        <Curves height_px={HEIGHT_PX}>
          {envelope === null ? null : <path class="envelope" d={envelopePath(envelope, view)} />}
          {curves.map(({ entry, level_db }) => (
            <path key={entry.text} class={entry.class} d={curvePath(level_db, view)} />
          ))}
        </Curves>
      </Plot>
      <figcaption>
        <Legend
          entries={[
            ...(envelope === null ? [] : [envelope.entry]),
            ...curves.map(({ entry }) => entry),
            ...(props.shaded === undefined
              ? []
              : [{ class: 'shared', text: props.shaded, mark: BLOCK }]),
          ]}
        />
      </figcaption>
    </figure>
  );
}

interface View {
  readonly frequency_hz: readonly number[];
  readonly range: LevelRange;
  readonly to_hz: number;
}

function places({ frequency_hz, range: { top_db, bottom_db }, to_hz }: View) {
  const across = frequencyScale(DRAWN_HZ.from, to_hz);
  const down = scaleLinear().domain([top_db, bottom_db]).range([0, 1000]);
  const inside = frequency_hz.flatMap((f_hz, index) =>
    DRAWN_HZ.from <= f_hz && f_hz <= to_hz * 1.001 ? [index] : [],
  );
  return { inside, x: (index: number) => across(frequency_hz[index] ?? 0) * 1000, down };
}

function curvePath(level_db: readonly (number | null)[], view: View): string {
  const { inside, x, down } = places(view);
  const through = line<number>()
    .defined((index) => (level_db[index] ?? null) !== null)
    .x(x)
    .y((index) => down(level_db[index] ?? 0))
    .digits(1);
  return through([...inside]) ?? '';
}

function envelopePath(
  {
    lower_db,
    upper_db,
  }: Pick<NonNullable<ResponseChartProps['envelope']>, 'lower_db' | 'upper_db'>,
  view: View,
): string {
  const { inside, x, down } = places(view);
  const between = area<number>()
    .x(x)
    .y0((index) => down(lower_db[index] ?? 0))
    .y1((index) => down(upper_db[index] ?? 0))
    .digits(1);
  return between([...inside]) ?? '';
}

function Statistics({
  schroeder_hz,
  to_hz,
  show,
}: {
  readonly schroeder_hz: number;
  readonly to_hz: number;
  readonly show: Show;
}): VNode {
  const at = frequencyScale(DRAWN_HZ.from, to_hz)(schroeder_hz);
  return (
    <g class="schroeder">
      <rect x={percent(at)} y="0" width={percent(1 - at)} height={fieldHeight_px(HEIGHT_PX)} />
      <text x="100%" y="-6" text-anchor="end">
        {`statistics above ${show.frequency(schroeder_hz)}`}
      </text>
    </g>
  );
}

function Band({
  hz: [from_hz, band_hz],
  text,
  to_hz,
}: ShadedBand & { readonly to_hz: number }): VNode {
  const scale = frequencyScale(DRAWN_HZ.from, to_hz);
  const [low, high] = [scale(from_hz), scale(band_hz)];
  return (
    <rect
      class="shared"
      x={percent(low)}
      width={percent(Math.max(0, high - low))}
      y="0"
      height={fieldHeight_px(HEIGHT_PX)}
    >
      <title>{text}</title>
    </rect>
  );
}

/** More than that below the top is as good as silence. */
const DEEPEST_DB = 48;

/** One range for curves that are to be compared: round figures around all of them. */
export function rangeOf(
  frequency_hz: readonly number[],
  curves: readonly (readonly (number | null)[])[],
  highest_hz: number = DRAWN_HZ.to,
): LevelRange {
  const inside = curves.flatMap((level_db) =>
    level_db.filter((level, index): level is number => {
      const f_hz = frequency_hz[index] ?? 0;
      return level !== null && DRAWN_HZ.from <= f_hz && f_hz <= highest_hz;
    }),
  );
  if (inside.length === 0) return { top_db: 90, bottom_db: 42 };
  const highest_db = inside.reduce((most, level) => Math.max(most, level));
  const lowest_db = inside.reduce((least, level) => Math.min(least, level));
  const top_db = Math.ceil((highest_db + 1) / 6) * 6;
  return { top_db, bottom_db: Math.max(Math.floor(lowest_db / 6) * 6, top_db - DEEPEST_DB) };
}

function levelTicks({ top_db, bottom_db }: LevelRange): readonly Tick[] {
  const count = Math.floor((top_db - bottom_db) / 6) + 1;
  return Array.from({ length: count }, (_, index) => {
    const level_db = bottom_db + 6 * index;
    return {
      share: (level_db - bottom_db) / (top_db - bottom_db),
      text: level_db % 12 === 0 ? String(level_db).replace('-', '\u2212') : '',
    };
  });
}
