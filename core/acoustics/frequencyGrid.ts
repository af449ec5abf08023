// Grids of frequencies, evenly spaced in octaves, on which responses are worked out and drawn.

import { positive } from './guard.ts';

/**
 * Frequencies evenly spaced in octaves, both ends included.
 *
 * @param from_hz > 0
 * @param to_hz > from_hz
 * @param pointsPerOctaveCount at least so many; the spacing is made to fit
 */
export function logGrid_hz(
  from_hz: number,
  to_hz: number,
  pointsPerOctaveCount: number,
): Float64Array {
  const octaves = Math.log2(to_hz / positive('from_hz', from_hz));
  const steps = Math.max(1, Math.ceil(positive('to_hz / from_hz', octaves) * pointsPerOctaveCount));
  return Float64Array.from({ length: steps + 1 }, (_, i) => from_hz * 2 ** ((octaves * i) / steps));
}

/** Index of the frequency of a grid that is nearest to one, in octaves. */
export function nearestIndex(frequencies_hz: ArrayLike<number>, frequency_hz: number): number {
  let nearest = 0;
  let least = Number.POSITIVE_INFINITY;
  for (let i = 0; i < frequencies_hz.length; i++) {
    const apart = Math.abs(Math.log((frequencies_hz[i] ?? Number.NaN) / frequency_hz));
    if (apart < least) {
      least = apart;
      nearest = i;
    }
  }
  return nearest;
}
