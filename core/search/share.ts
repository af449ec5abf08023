// A part of a longer piece of work: its own share told as a share of the whole.

import type { InSlices } from './transferMap.ts';

/** @param from @param to where the part begins and ends within the whole, 0 … 1 */
export function* share<Answer>(work: InSlices<Answer>, from: number, to: number): InSlices<Answer> {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    yield from + (to - from) * step.value;
  }
}
