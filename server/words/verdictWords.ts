// The verdict on a session's takes in words: what would explain where they differ from the plan, and what they cannot tell.

import type { LikelyCause } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import { explanationsOf, verdictNotes, verdictText } from '../sheet/measured/verdictText.ts';
import { type Explanation, plain } from './explanation.ts';

/** null where the session's takes were not held against the plan. */
export function explainVerdict({ verification }: Setup, session: string): Explanation | null {
  const verdict = verification?.sessions.find((one) => one.session === session);
  if (verdict === undefined) return null;
  const causes = explanationsOf(verdict.causes).map((own) => own.map(causeText).join(', and '));
  return {
    title: 'Its takes against the plan',
    lines: [verdictText(verdict), ...causes, ...verdictNotes(verdict)].map(plain),
    source: null,
  };
}

function causeText({ message, before, after, togetherWith = [] }: LikelyCause): string {
  const without = togetherWith.length === 0 ? 'as stated' : 'without it';
  return `${message} (misfit ${before.toFixed(0)} ${without}, ${after.toFixed(0)} with it)`;
}
