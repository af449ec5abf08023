// How much the seats differ: the mean spatial variance of a channel's bass.

import type { SpreadFigures } from '../fieldFigures.ts';

/** Where several subwoofers are judged. @source Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347: about 20 to 80 Hz */
const FROM_HZ = 20;
const TO_HZ = 80;
const SOURCE =
  'mean spatial variance: Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347, 20 to 80 Hz (definition from memory)';

/**
 * The variance over the seats of the level in dB (divided by their number), averaged over frequency.
 *
 * @param levels_db `[seat][frequency]`; two seats or more
 * @returns null for fewer, or where the grid has nothing from 20 to 80 Hz
 */
export function spreadOf(
  frequency_hz: readonly number[],
  levels_db: readonly ArrayLike<number>[],
): Omit<SpreadFigures, 'channel' | 'set'> | null {
  const inside = frequency_hz.flatMap((f_hz, i) => (FROM_HZ <= f_hz && f_hz <= TO_HZ ? [i] : []));
  const [first] = inside;
  if (levels_db.length < 2 || first === undefined) return null;
  let total = 0;
  let worst = { frequency_hz: frequency_hz[first] ?? 0, level_db: 0 };
  const count = levels_db.length;
  for (const i of inside) {
    let [sum, squares, lowest, highest] = [0, 0, Infinity, -Infinity];
    for (let seat = 0; seat < count; seat++) {
      const level = levels_db[seat]?.[i] ?? 0;
      sum += level;
      lowest = Math.min(lowest, level);
      highest = Math.max(highest, level);
    }
    for (let seat = 0; seat < count; seat++)
      squares += ((levels_db[seat]?.[i] ?? 0) - sum / count) ** 2;
    total += squares / count;
    const span_db = highest - lowest;
    if (worst.level_db < span_db) worst = { frequency_hz: frequency_hz[i] ?? 0, level_db: span_db };
  }
  const variance_db2 = total / inside.length;
  return {
    from_hz: FROM_HZ,
    to_hz: TO_HZ,
    variance_db2,
    deviation_db: Math.sqrt(variance_db2),
    worst,
    source: SOURCE,
  };
}
