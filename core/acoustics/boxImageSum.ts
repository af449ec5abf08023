// All image sources of a box whose surfaces throw back a fixed share of the pressure: arrivals, and their sum at a frequency.

import type { BoxSize } from './boxModes.ts';
import type { Complex } from './complex.ts';
import type { SixSurfaces } from './modalDecay.ts';
import type { Point3 } from './point.ts';

/** Sound of one image. */
export interface ImageArrival {
  readonly distance_m: number;
  /** Pressure re 1 at 1 m: the product of the reflections over the distance. */
  readonly amplitude_per_m: number;
}

interface AxisImage {
  readonly offset_m: number;
  readonly gain_ratio: number;
}

/**
 * Images whose product of reflections is at least `least_ratio`.
 *
 * @param reflections_ratio pressure factor of each surface, −1 … 1, below 1 in absolute value
 * @returns in no order
 * @source Allen & Berkley, J. Acoust. Soc. Am. 65 (1979) 943
 */
export function boxImageArrivals(
  size: BoxSize,
  reflections_ratio: SixSurfaces,
  source: Point3,
  receiver: Point3,
  least_ratio: number,
): readonly ImageArrival[] {
  const [x0, x1, y0, y1, z0, z1] = reflections_ratio;
  const along = (axis: keyof Point3, low: number, high: number) =>
    axisImages(size[axis], [low, high], source[axis], receiver[axis], least_ratio);
  const found: ImageArrival[] = [];
  const ys = along('y_m', y0, y1);
  const zs = along('z_m', z0, z1);
  for (const x of along('x_m', x0, x1))
    for (const y of ys) {
      const gain_ratio = x.gain_ratio * y.gain_ratio;
      if (Math.abs(gain_ratio) < least_ratio) continue;
      for (const z of zs) {
        const whole_ratio = gain_ratio * z.gain_ratio;
        if (Math.abs(whole_ratio) < least_ratio) continue;
        const distance_m = Math.hypot(x.offset_m, y.offset_m, z.offset_m);
        found.push({ distance_m, amplitude_per_m: whole_ratio / distance_m });
      }
    }
  return found;
}

/** Images along one axis: at s + 2nL after |n| hits of each wall, at −s + 2nL after |n − 1| of the near and |n| of the far one. */
function axisImages(
  length_m: number,
  [near, far]: readonly [number, number],
  source_m: number,
  receiver_m: number,
  least_ratio: number,
): readonly AxisImage[] {
  const images: AxisImage[] = [];
  const add = (place_m: number, nearHits: number, farHits: number) => {
    const gain_ratio = near ** nearHits * far ** farHits;
    if (least_ratio <= Math.abs(gain_ratio))
      images.push({ offset_m: place_m - receiver_m, gain_ratio });
  };
  const pair = Math.abs(near * far);
  const most = pair === 0 ? 2 : Math.ceil(Math.log(least_ratio) / Math.log(pair)) + 1;
  for (let n = -most; n <= most; n++) {
    add(source_m + 2 * n * length_m, Math.abs(n), Math.abs(n));
    add(-source_m + 2 * n * length_m, Math.abs(n - 1), Math.abs(n));
  }
  return images;
}

/**
 * Σ A e^{−jkR}/R over the arrivals, 1/m; times jωρ/(4π) it is the pressure per volume velocity.
 */
export function imageSum_per_m(
  arrivals: readonly ImageArrival[],
  frequency_hz: number,
  speedOfSound_m_s: number,
): Complex {
  const k = (2 * Math.PI * frequency_hz) / speedOfSound_m_s;
  let re = 0;
  let im = 0;
  for (const { distance_m, amplitude_per_m } of arrivals) {
    re += amplitude_per_m * Math.cos(k * distance_m);
    im -= amplitude_per_m * Math.sin(k * distance_m);
  }
  return { re, im };
}
