// A search for the least misfit that needs no slopes: steps along each figure, shortened when none helps.

import type { Parameter } from './causeHypothesis.ts';

/** Halvings of the scan's step. */
const ROUNDS = 4;

/** A pattern search: steps along each axis, halved when none helps. @source Hooke & Jeeves, J. ACM 8 (1961) 212, without pattern moves */
export function improve(
  misfitAt: (values: readonly number[]) => number,
  start: readonly number[],
  parameters: readonly Parameter[],
): { readonly values: readonly number[]; readonly misfit: number } {
  let values = start;
  let misfit = misfitAt(start);
  let share = 0.5;
  for (let round = 0; round < ROUNDS; ) {
    const steps = parameters.flatMap((parameter, i) => {
      const step = stepOf(parameter) * share;
      return [-step, step].map((by) =>
        values.map((value, j) => (i === j ? clamp(value + by, parameter) : value)),
      );
    });
    const tried = steps.map((next) => ({ values: next, misfit: misfitAt(next) }));
    const better = tried.filter((one) => one.misfit < misfit);
    if (better.length === 0) {
      share /= 2.5;
      round++;
    } else ({ values, misfit } = least(better, (one) => one.misfit));
  }
  return { values, misfit };
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
