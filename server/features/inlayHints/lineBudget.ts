// The line's budget: which hints of one line are shown, since editors cut all hints of a line together at 43 characters.

/** VS Code's limit for all hints of one line together. */
export const LONGEST_LINE = 43;

/**
 * @param hints of one line, each with its text and its rank
 * @returns those that are kept, in the order given: highest rank first as long as there is room; a hint that does not fit whole
 *   loses parts from its end, but never its first
 */
export function withinBudget<
  H extends { readonly rank: number; readonly parts: readonly { readonly text: string }[] },
>(hints: readonly H[]): readonly H[] {
  const kept = new Map<H, H>();
  // Hints of one line are set apart as their parts are; the first one has nothing before it.
  let left = LONGEST_LINE + SEPARATOR.length;
  for (const hint of [...hints].sort((one, other) => other.rank - one.rank)) {
    const fitting = longestFitting(hint, left - SEPARATOR.length);
    if (fitting === null) continue;
    kept.set(hint, fitting);
    left -= SEPARATOR.length + widthOf(fitting.parts);
  }
  return hints.flatMap((hint) => kept.get(hint) ?? []);
}

/** What stands between two parts of a hint. */
export const SEPARATOR = ' · ';

export function widthOf(parts: readonly { readonly text: string }[]): number {
  return parts.map(({ text }) => text).join(SEPARATOR).length;
}

function longestFitting<H extends { readonly parts: readonly { readonly text: string }[] }>(
  hint: H,
  left: number,
): H | null {
  for (let count = hint.parts.length; 0 < count; count -= 1) {
    const parts = hint.parts.slice(0, count);
    if (widthOf(parts) <= left) return { ...hint, parts };
  }
  return null;
}
