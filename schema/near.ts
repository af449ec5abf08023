// Which known name a mistyped one is near to.

/**
 * How many single-letter slips (one left out, one too many, one wrong, two neighbours swapped) lead from one word to the other.
 *
 * @source Damerau 1964, "A technique for computer detection and correction of spelling errors"; the restricted form, in which
 * no letter is touched twice
 */
export function editDistance(a: string, b: string): number {
  let beforeLast: number[] = [];
  let last = Array.from({ length: b.length + 1 }, (_, column) => column);
  for (let row = 1; row <= a.length; row++) {
    const current = [row];
    for (let column = 1; column <= b.length; column++) {
      const cost = a[row - 1] === b[column - 1] ? 0 : 1;
      let best = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + cost,
      );
      const swapped = a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1];
      if (1 < row && 1 < column && swapped)
        best = Math.min(best, (beforeLast[column - 2] ?? 0) + 1);
      current.push(best);
    }
    beforeLast = last;
    last = current;
  }
  return last[b.length] ?? 0;
}

/** The known names that a mistyped one may have meant, nearest first, at most three. */
export function nearNames(written: string, known: Iterable<string>): readonly string[] {
  if (60 < written.length) return [];
  const allowed = Math.max(1, Math.floor(Math.min(written.length, 12) / 3));
  const small = written.toLowerCase();
  const near: { name: string; distance: number }[] = [];
  for (const name of known) {
    if (allowed < Math.abs(name.length - written.length)) continue;
    const distance = editDistance(small, name.toLowerCase());
    if (distance <= allowed) near.push({ name, distance });
  }
  near.sort((a, b) => a.distance - b.distance);
  return near.slice(0, 3).map(({ name }) => name);
}
