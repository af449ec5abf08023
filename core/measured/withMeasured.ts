// The third phase: a Setup with what the takes show, held against the plan.

import { drift } from '../record/drift.ts';
import type { Setup } from '../setup.ts';
import type { MeasuredFigures } from './measuredFigures.ts';
import { verified } from './verified.ts';

/**
 * Adds the takes, their comparison with the plan and with earlier sessions; findings are left to the rule runner.
 *
 * @param setup with its field, where it has one: without it there is no verification yet
 */
export function withMeasured(setup: Setup, measured: MeasuredFigures): Setup {
  const whole = { ...setup, measured };
  return { ...whole, verification: verified(whole), drift: drift(setup.room, measured) };
}
