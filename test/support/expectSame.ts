// Two large values are the same: Node's quick comparison first, and Vitest's slow one only where that says no, for it shows where they differ.

import { isDeepStrictEqual } from 'node:util';
import { expect } from 'vitest';

/**
 * Passes where `expect(plain(got)).toEqual(plain(want))` does.
 *
 * @param plain what makes two values the same that are not so to the letter, such as -0 and 0
 */
export function expectSame<Value>(
  got: Value,
  want: Value,
  plain: (value: Value) => unknown = (value) => value,
): void {
  if (!isDeepStrictEqual(got, want)) expect(plain(got)).toEqual(plain(want));
}
