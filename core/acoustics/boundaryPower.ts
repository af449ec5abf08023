// What walls near a source do to the sound power it gives off: solid-angle gains, and Waterhouse's formulas with distance.

import { notNegative, positive } from './guard.ts';

/**
 * Power gain of a source right at one, two or three walls that meet: +3.01 dB each.
 *
 * @param wallCount 0 free, 1 half space, 2 edge, 3 corner
 * @source radiation load inversely as solid angle: Allison, J. Audio Eng. Soc. 22 (1974) 314; only while the source is
 *         much nearer to the walls than a wavelength
 */
export function solidAngleGain_db(wallCount: 0 | 1 | 2 | 3): number {
  return wallCount * 10 * Math.log10(2);
}

/**
 * Power of a small source near hard walls at right angles, re free field.
 *
 * @param distances_m to one, two or three such walls, >= 0; empty is free field, 0 dB
 * @param frequency_hz >= 0
 * @returns dB: 10 lg of the sum over all images of sin u/u, u = 2k times the distance to the edge or corner
 * @throws RangeError with more than three distances or a negative one
 * @source Waterhouse, J. Acoust. Soc. Am. 30 (1958) 4 (closed forms from memory)
 */
export function boundaryPower_db(
  distances_m: readonly number[],
  frequency_hz: number,
  speedOfSound_m_s: number,
): number {
  if (3 < distances_m.length) throw new RangeError(`${distances_m.length} walls: at most 3`);
  const k = (2 * Math.PI * frequency_hz) / positive('speedOfSound_m_s', speedOfSound_m_s);
  let power_ratio = 0;
  for (let subset = 0; subset < 2 ** distances_m.length; subset++) {
    const apart_m = distances_m.map((distance, axis) =>
      subset & (1 << axis) ? notNegative('distances_m', distance) : 0,
    );
    power_ratio += sinc(2 * k * Math.hypot(...apart_m));
  }
  return 10 * Math.log10(power_ratio);
}

function sinc(u: number): number {
  return u === 0 ? 1 : Math.sin(u) / u;
}
