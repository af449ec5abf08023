// How a command has its long work done: under a title that a person reads, in slices.

import type { InSlices } from '../../core/search/transferMap.ts';

/** @returns null where it was stopped */
export type WorkOff = <Answer>(title: string, work: InSlices<Answer>) => Promise<Answer | null>;
