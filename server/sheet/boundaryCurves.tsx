// The chart of what walls, floor and ceiling do to the loudspeakers: direct sound and first reflections, against the direct sound.

import { scaleLinear } from 'd3-scale';
import { line } from 'd3-shape';
import type { VNode } from 'preact';
import type { BoundaryCurve } from '../../core/fieldFigures.ts';
import { frequencyScale, frequencyTicks } from './chart/frequencyAxis.ts';
import { Legend } from './chart/legend.tsx';
import { Curves, Plot, type Tick } from './chart/plot.tsx';
import { listed } from './words.ts';

const HEIGHT_PX = 230;
const TOP_DB = 12;
const BOTTOM_DB = -24;
const MOST_CURVES = 4;
const LINES = ['curve curve-main', 'curve curve-sub', 'curve curve-best', 'curve curve-practice'];

/** @param curves of the reference seat */
export function BoundaryCurves({
  curves,
}: {
  readonly curves: readonly BoundaryCurve[];
}): VNode | null {
  const groups = grouped(curves);
  const [first] = groups;
  if (first === undefined) return null;
  const drawn = groups.slice(0, MOST_CURVES);
  const from_hz = first.curve.frequency_hz[0] ?? 50;
  const to_hz = first.curve.frequency_hz.at(-1) ?? 500;
  const left = groups.slice(MOST_CURVES).flatMap(({ sources }) => sources);
  return (
    <figure>
      <Plot
        label={`Predicted level over frequency of direct sound and first reflections together at ${first.curve.seat}, against the direct sound: ${listed(drawn.map(({ sources }) => listed(sources)))}. The table of first reflections gives the figures.`}
        height_px={HEIGHT_PX}
        across={{ title: 'Hz', ticks: frequencyTicks(from_hz, to_hz) }}
        up={{ title: 'dB', ticks: LEVEL_TICKS }}
      >
        <Curves height_px={HEIGHT_PX}>
          {drawn.map(({ sources, curve }, index) => (
            <path key={sources.join()} class={LINES[index]} d={pathOf(curve, from_hz, to_hz)} />
          ))}
        </Curves>
      </Plot>
      <figcaption>
        <Legend
          entries={drawn.map(({ sources }, index) => ({
            class: LINES[index] ?? 'curve',
            text: listed(sources),
          }))}
        />
        {`Direct sound and first reflections at ${first.curve.seat}, against the direct sound; absorption and directivity included.`}
        {left.length === 0 ? '' : ` Not drawn: ${listed(left)}.`}
      </figcaption>
    </figure>
  );
}

interface CurveGroup {
  readonly sources: readonly string[];
  readonly curve: BoundaryCurve;
}

/** Nobody sees less. */
const SAME_DB = 0.1;

/** Loudspeakers with the same curve are drawn once. */
function grouped(curves: readonly BoundaryCurve[]): readonly CurveGroup[] {
  const groups: { readonly sources: string[]; readonly curve: BoundaryCurve }[] = [];
  for (const curve of curves) {
    const same = groups.find((group) =>
      group.curve.level_db.every(
        (level_db, index) => Math.abs(level_db - (curve.level_db[index] ?? 0)) < SAME_DB,
      ),
    );
    if (same) same.sources.push(curve.source);
    else groups.push({ sources: [curve.source], curve });
  }
  return groups;
}

function pathOf({ frequency_hz, level_db }: BoundaryCurve, from_hz: number, to_hz: number): string {
  const across = frequencyScale(from_hz, to_hz);
  const down = scaleLinear().domain([TOP_DB, BOTTOM_DB]).range([0, 1000]);
  const points = frequency_hz.map((f_hz, index): [number, number] => [
    across(f_hz) * 1000,
    down(level_db[index] ?? 0),
  ]);
  return line().digits(1)(points) ?? '';
}

const LEVEL_TICKS: readonly Tick[] = [12, 6, 0, -6, -12, -18, -24].map((level_db) => ({
  share: (level_db - BOTTOM_DB) / (TOP_DB - BOTTOM_DB),
  text: level_db % 12 === 0 ? String(level_db).replace('-', '\u2212') : '',
}));
