// How a fingerprint written beside a date stands to the set-up as it is now.

import { agreement, type Fingerprint } from './fingerprint.ts';
import type { Tie } from './recordFigures.ts';

/** @param setup the fingerprint as written; null where there is none */
export function tieOf(
  setup: string | null,
  fingerprint: Fingerprint,
): Pick<Tie, 'setup' | 'tie' | 'changed'> {
  if (setup === null) return { setup, tie: 'untied', changed: [] };
  const { agrees, changed } = agreement(setup, fingerprint);
  const tie = agrees === 'yes' ? 'in_date' : agrees === 'no' ? 'out_of_date' : 'unknown';
  return { setup, tie, changed };
}

/** The last day on which something was done in another set-up than the present one: the change came later. */
export function lastOtherSetup(dated: readonly Tie[]): string | null {
  const days = dated.flatMap(({ tie, date }) =>
    tie === 'out_of_date' && date !== null ? [date] : [],
  );
  return days.sort().at(-1) ?? null;
}
