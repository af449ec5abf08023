// A search for the least misfit that needs no slopes: steps along each figure, shortened when none helps.

import { allAtOnce, type InSlices } from '../search/transferMap.ts';
import type { Parameter } from './causeHypothesis.ts';

/** Halvings of the scan's step. */
const ROUNDS = 4;

export interface Improved {
  readonly values: readonly number[];
  readonly misfit: number;
}

/** A pattern search: steps along each axis, shortened when none helps. @source Hooke & Jeeves, J. ACM 8 (1961) 212, without pattern moves */
export function improve(
  misfitAt: (values: readonly number[]) => number,
  start: readonly number[],
  parameters: readonly Parameter[],
): Improved {
  return allAtOnce(improveInSlices(misfitAt, start, parameters));
}

/** The same, one look at a time; what is told is how far the steps have been shortened. */
export function* improveInSlices(
  misfitAt: (values: readonly number[]) => number,
  start: readonly number[],
  parameters: readonly Parameter[],
): InSlices<Improved> {
  let best: Improved = { values: start, misfit: misfitAt(start) };
  let share = 0.5;
  for (let round = 0; round < ROUNDS; ) {
    const tried: Improved[] = [];
    for (const [i, parameter] of parameters.entries())
      for (const sign of [-1, 1]) {
        const by = sign * stepOf(parameter) * share;
        const values = best.values.map((value, j) =>
          i === j ? clamp(value + by, parameter) : value,
        );
        tried.push({ values, misfit: misfitAt(values) });
        yield round / ROUNDS;
      }
    const found = tried.length === 0 ? best : least(tried, ({ misfit }) => misfit);
    if (found.misfit < best.misfit) best = found;
    else {
      share /= 2.5;
      round++;
    }
  }
  return best;
}

function stepOf({ from, to, scan }: Parameter): number {
  return (to - from) / Math.max(1, scan.length - 1);
}

function clamp(value: number, { from, to }: Parameter): number {
  return Math.min(to, Math.max(from, value));
}

export function least<One>(list: readonly One[], of: (one: One) => number): One {
  return list.reduce((a, b) => (of(b) < of(a) ? b : a));
}
