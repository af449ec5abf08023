// A target curve on a grid of frequencies.

import type { Spectrum } from '../../schema/model/quantities.ts';

/**
 * Between the file's points evenly in octaves, level beyond them.
 *
 * @returns dB by frequency; null for flat
 */
export function targetOn_db(
  curve: Spectrum | null,
  frequency_hz: ArrayLike<number>,
): readonly number[] | null {
  if (curve === null || curve.value.length === 0) return null;
  const octaves = curve.frequency_hz.map(Math.log2);
  return Array.from(frequency_hz, (f_hz) => {
    const at = Math.log2(f_hz);
    const above = octaves.findIndex((octave) => at <= octave);
    if (above === -1) return curve.value.at(-1) ?? 0;
    if (above === 0) return curve.value[0] ?? 0;
    const [from = 0, to = 0] = [octaves[above - 1], octaves[above]];
    const [low = 0, high = 0] = [curve.value[above - 1], curve.value[above]];
    return low + ((high - low) * (at - from)) / (to - from);
  });
}
