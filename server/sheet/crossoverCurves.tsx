// The chart of a crossover: main, subwoofer and their sum, with the sums of practice's start and of the best for comparison.

import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { VNode } from 'preact';
import type { CrossoverFigures, CrossoverOutcome } from '../../core/setup.ts';
import { frequencyScale, frequencyTicks } from './chart/frequencyAxis.ts';
import { Legend, type LegendEntry } from './chart/legend.tsx';
import { Curves, fieldHeight_px, Plot, percent, type Tick } from './chart/plot.tsx';
import type { View } from './view.ts';

const HEIGHT_PX = 290;
const TOP_DB = 9;
const BOTTOM_DB = -30;

interface CrossoverCurvesProps {
  readonly crossover: CrossoverFigures;
  /** Whose main and sub are drawn apart. */
  readonly drawn: CrossoverOutcome;
  readonly show: View['show'];
}

export function CrossoverCurves({ crossover, drawn, show }: CrossoverCurvesProps): VNode {
  const { frequency_hz } = drawn.curve;
  const from_hz = frequency_hz[0] ?? 20;
  const to_hz = frequency_hz.at(-1) ?? 200;
  const curves = curvesOf(crossover, drawn);
  const at = frequencyScale(from_hz, to_hz)(drawn.filter.frequency_hz);
  return (
    <figure>
      <Plot
        label={`Level over frequency of main, subwoofer and their sum with the crossover at ${show.frequency(drawn.filter.frequency_hz)}; ripple ${show.level(drawn.ripple_db)}. The table gives the figures.`}
        height_px={HEIGHT_PX}
        across={{ title: 'Hz', ticks: frequencyTicks(from_hz, to_hz) }}
        up={{ title: 'dB', ticks: LEVEL_TICKS }}
      >
        <Overlap drawn={drawn} from_hz={from_hz} to_hz={to_hz} />
        <line
          class="crossover-line"
          x1={percent(at)}
          x2={percent(at)}
          y1="0"
          y2={fieldHeight_px(HEIGHT_PX)}
        />
        <text class="mark-text" x={percent(at)} y="-6" text-anchor="middle">
          {show.frequency(drawn.filter.frequency_hz)}
        </text>
        <Curves height_px={HEIGHT_PX}>
          {curves.map(({ entry, frequencies_hz, levels_db }) => (
            <path
              key={entry.text}
              class={entry.class}
              d={curvePath(frequencies_hz, levels_db, from_hz, to_hz)}
            />
          ))}
        </Curves>
      </Plot>
      <figcaption>
        <Legend entries={curves.map(({ entry }) => entry)} />
      </figcaption>
    </figure>
  );
}

interface Curve {
  readonly entry: LegendEntry;
  readonly frequencies_hz: readonly number[];
  readonly levels_db: readonly number[];
}

function curvesOf(crossover: CrossoverFigures, drawn: CrossoverOutcome): readonly Curve[] {
  const { frequency_hz, main_db, sub_db, sum_db } = drawn.curve;
  const best = crossover.ranked[0] ?? null;
  const whose = drawn === crossover.current ? 'as dialled in' : 'as practice starts';
  const others = [
    {
      outcome: crossover.practice,
      class: 'curve curve-practice',
      text: 'sum, start that practice names',
    },
    { outcome: best, class: 'curve curve-best', text: 'sum, best found' },
  ].flatMap(({ outcome, class: name, text }): readonly Curve[] =>
    outcome === null || outcome === drawn
      ? []
      : [
          {
            entry: { class: name, text },
            frequencies_hz: outcome.curve.frequency_hz,
            levels_db: outcome.curve.sum_db,
          },
        ],
  );
  const own = (name: string, text: string, levels_db: readonly number[]): Curve => ({
    entry: { class: `curve curve-${name}`, text },
    frequencies_hz: frequency_hz,
    levels_db,
  });
  return [
    ...others,
    own('main', 'main', main_db),
    own('sub', 'subwoofer', sub_db),
    own('sum', `sum, ${whose}`, sum_db),
  ];
}

/** The band in which both are within 10 dB of each other and phase matters. */
function Overlap({
  drawn,
  from_hz,
  to_hz,
}: {
  readonly drawn: CrossoverOutcome;
  readonly from_hz: number;
  readonly to_hz: number;
}): VNode {
  const scale = frequencyScale(from_hz, to_hz);
  const [low, high] = drawn.overlap_hz.map((frequency_hz) => scale(frequency_hz));
  return (
    <rect
      class="overlap"
      x={percent(low ?? 0)}
      width={percent(Math.max(0, (high ?? 0) - (low ?? 0)))}
      y="0"
      height={fieldHeight_px(HEIGHT_PX)}
    />
  );
}

function curvePath(
  frequencies_hz: readonly number[],
  levels_db: readonly number[],
  from_hz: number,
  to_hz: number,
): string {
  const across = frequencyScale(from_hz, to_hz);
  const down = scaleLinear().domain([TOP_DB, BOTTOM_DB]).range([0, 1000]);
  const points = frequencies_hz.flatMap((frequency_hz, index): readonly [number, number][] =>
    frequency_hz < from_hz || to_hz < frequency_hz
      ? []
      : [[across(frequency_hz) * 1000, down(levels_db[index] ?? BOTTOM_DB)]],
  );
  return line().digits(1)(points) ?? '';
}

const LEVEL_TICKS: readonly Tick[] = [9, 6, 3, 0, -3, -6, -12, -18, -24, -30].map((level_db) => ({
  share: (level_db - BOTTOM_DB) / (TOP_DB - BOTTOM_DB),
  text: level_db % 6 === 0 ? String(level_db).replace('-', '\u2212') : '',
}));
