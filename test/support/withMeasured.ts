// A Setup with what its takes show, held against the plan at once: what the server works out a part at a time.

import type { MeasuredFigures } from '../../core/measured/measuredFigures.ts';
import { verified } from '../../core/measured/verified.ts';
import { drift } from '../../core/record/drift.ts';
import type { Setup } from '../../core/setup.ts';

/**
 * Adds the takes, their comparison with the plan and with earlier sessions; findings are left to the rule runner.
 *
 * @param setup with its field, where it has one: without it there is no verification yet
 */
export function withMeasured(setup: Setup, measured: MeasuredFigures): Setup {
  const whole = { ...setup, measured };
  return { ...whole, verification: verified(whole), drift: drift(setup.room, measured) };
}
