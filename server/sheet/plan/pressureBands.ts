// A map of levels as bands of equal width, each one path: what a drawing of pressure over the plan is made of.

import type { FieldMap } from '../../../core/fieldFigures.ts';
import { type Frame, round } from './frame.ts';

/**
 * The colour map "cividis", dark blue to yellow: its lightness grows evenly, and people with any kind of colour vision see the
 * same steps. @source J. R. Nuñez, C. R. Anderton, R. S. Renslow, PLOS ONE 13 (2018) e0199239; ten even steps of its polynomial
 * approximation, from memory
 */
export const BAND_COLORS: readonly string[] = [
  '#002051',
  '#0d346b',
  '#33486e',
  '#575c6e',
  '#737172',
  '#8b8677',
  '#a49d78',
  '#c3b56d',
  '#e6cf59',
  '#fdea45',
];
export const BAND_DB = 3;

export interface PressureBand {
  readonly color: string;
  /** Above this level; the lowest band holds all that is lower too, the highest all that is higher. */
  readonly from_db: number;
  /** Path in the drawing's units; empty where no place has this level. */
  readonly path: string;
}

/** Right at a loudspeaker it is as loud as one likes: so many of the places count as the loudest. */
const LOUDEST_SHARE = 0.02;

/** The level that the highest band begins to hold all above: where all but the loudest places lie, as a whole band. */
export function topOf({ level_db }: FieldMap): number {
  const levels = level_db.filter((level) => level !== null).toSorted((a, b) => b - a);
  const loud_db = levels[Math.floor(levels.length * LOUDEST_SHARE)];
  return loud_db === undefined ? 0 : Math.ceil(loud_db / BAND_DB) * BAND_DB;
}

/** Lowest first. */
export function pressureBands(map: FieldMap, frame: Frame): readonly PressureBand[] {
  const top_db = topOf(map);
  const count = BAND_COLORS.length;
  const bandOf = (level_db: number): number =>
    Math.max(0, Math.min(count - 1, count - Math.ceil((top_db - level_db) / BAND_DB || 1)));
  const paths = Array.from({ length: count }, () => [] as string[]);
  for (const { row, from, to, level_db } of runs(map, bandOf))
    paths[bandOf(level_db)]?.push(cells(map, frame, row, from, to));
  return BAND_COLORS.map((color, index) => ({
    color,
    from_db: top_db - (count - index) * BAND_DB,
    path: paths[index]?.join('') ?? '',
  }));
}

interface Run {
  readonly row: number;
  readonly from: number;
  readonly to: number;
  readonly level_db: number;
}

/** Neighbours of one band in a row. */
function* runs(
  { x_m, y_m, level_db }: FieldMap,
  bandOf: (level_db: number) => number,
): Generator<Run> {
  const columns = x_m.length;
  for (let row = 0; row < y_m.length; row += 1) {
    let from = 0;
    while (from < columns) {
      const first = level_db[row * columns + from] ?? null;
      let to = from + 1;
      if (first !== null) {
        const band = bandOf(first);
        while (to < columns) {
          const next = level_db[row * columns + to] ?? null;
          if (next === null || bandOf(next) !== band) break;
          to += 1;
        }
        yield { row, from, to, level_db: first };
      }
      from = to;
    }
  }
}

/** A little wider than the cells, so that no seam shows between two of them. */
const OVERLAP = 0.3;

function cells(
  { x_m, y_m }: FieldMap,
  frame: Frame,
  row: number,
  from: number,
  to: number,
): string {
  const width_m = (x_m[1] ?? 1) - (x_m[0] ?? 0);
  const height_m = (y_m[1] ?? 1) - (y_m[0] ?? 0);
  const start = frame.toDrawing((x_m[from] ?? 0) - width_m / 2, (y_m[row] ?? 0) - height_m / 2);
  const width = (to - from) * width_m * frame.scale + OVERLAP;
  const height = height_m * frame.scale + OVERLAP;
  return `M${round(start.x)} ${round(start.y)}h${round(width)}v${round(height)}h${round(-width)}z`;
}
