// What a session's takes come to, in a sentence: the same on the sheet and in the hover of the session.

import type { LikelyCause, SessionVerdict } from '../../../core/measured/verification.ts';

const VERDICTS: Readonly<Record<SessionVerdict['verdict'], string>> = {
  agrees: 'Nothing differs from the plan by more than these takes can show.',
  explained: 'These takes differ from the plan; likely, the likeliest first:',
  undecided: 'These takes differ from the plan, and they cannot tell why.',
};
const SILENT =
  'Nothing differs from the plan by more than these takes can show; but something may be otherwise that they cannot show.';

export function verdictText({ verdict, differs }: SessionVerdict): string {
  return verdict === 'undecided' && differs === false ? SILENT : VERDICTS[verdict];
}

/** What is said besides the causes, a sentence each. */
export function verdictNotes({
  cannotTell,
  elsewhere = [],
  contradicted = [],
}: SessionVerdict): readonly string[] {
  return [...cannotTell, ...elsewhere, ...contradicted.map(({ message }) => message)];
}

/** Causes that hold together, the likeliest explanation first. */
export function explanationsOf(
  causes: readonly LikelyCause[],
): readonly (readonly LikelyCause[])[] {
  const numberOf = ({ explanation }: LikelyCause, i: number) => explanation ?? -i;
  const numbers = [...new Set(causes.map(numberOf))];
  return numbers.map((number) => causes.filter((cause, i) => numberOf(cause, i) === number));
}
