// The kinds of thread that a server has besides its own: under which sign each is started, and what it answers.

import { fieldAnswers } from '../field/fieldWorkers.ts';
import { measuredAnswers } from '../measured/measuredWorkers.ts';
import type { Answers } from './worker.ts';

export const FIELD_THREAD = 'groundbass field';
export const MEASURED_THREAD = 'groundbass measurements';

/**
 * What the thread under this sign does with its messages, which are those of its kind: whoever started it saw to that.
 *
 * @returns null for a script that runs under no sign of ours
 */
export function answersUnder(sign: unknown): Answers<unknown, unknown> | null {
  if (sign === FIELD_THREAD) return fieldAnswers() as Answers<unknown, unknown>;
  if (sign === MEASURED_THREAD) return measuredAnswers as Answers<unknown, unknown>;
  return null;
}
