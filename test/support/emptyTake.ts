// A take of which nothing is known yet: what a test does not say of its takes.

import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';

const { calibrator: _, ...nothing } = NOTHING_READ;

export const EMPTY_TAKE: Omit<TakeReading, 'calibrator'> = nothing;
