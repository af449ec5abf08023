// Numbers by chance that come again from the same seed.

/**
 * Uniform numbers from 0 (included) to 1 (excluded).
 *
 * @param seed a whole number
 * @source mulberry32, public domain, T. Ettinger
 */
export function chanceFrom(seed: number): () => number {
  let state = Math.imul(seed, 0x9e3779b1);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
