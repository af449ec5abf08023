// How long a mode rings and how wide it is: decay constant, bandwidth, Q, and the damping that each wall gives it.

import type { BoxSize, ModeOrder } from './boxModes.ts';
import { positive } from './guard.ts';

/** Value for each of the six surfaces of a box: at x = 0, x = X, y = 0, y = Y, z = 0, z = Z. */
export type SixSurfaces = readonly [number, number, number, number, number, number];

/**
 * Amplitude decay constant, δ = 3 ln 10 / T.
 *
 * @param reverberation_s time to fall by 60 dB, > 0
 * @returns 1/s
 * @source Kuttruff, Room Acoustics, ch. 3
 */
export function decayConstant_per_s(reverberation_s: number): number {
  return (3 * Math.LN10) / positive('reverberation_s', reverberation_s);
}

/** Time to fall by 60 dB of a decay constant; the inverse of `decayConstant_per_s`, seconds. */
export function decayTime_s(decay_per_s: number): number {
  return (3 * Math.LN10) / positive('decay_per_s', decay_per_s);
}

/**
 * Half-power bandwidth of a mode, δ/π = 2.2/T.
 *
 * @param reverberation_s time to fall by 60 dB, > 0
 * @source Kuttruff, Room Acoustics, ch. 3
 */
export function modalBandwidth_hz(reverberation_s: number): number {
  return decayConstant_per_s(reverberation_s) / Math.PI;
}

/** Q of a mode, f/B = f T/2.2. */
export function modal_q(frequency_hz: number, reverberation_s: number): number {
  return frequency_hz / modalBandwidth_hz(reverberation_s);
}

/**
 * Damping of one mode of a box by its surfaces, δ = (c/2) Σ ε (β₀ + β₁)/L over the axes, ε = 1 for order 0, else 2.
 *
 * First order in the admittance: right while β is small; resonance shifts are left out.
 *
 * @param order half waves along x, y, z
 * @param admittances_ratio specific admittance ρc/Z of each surface, real part, >= 0
 * @returns 1/s; 0 if no surface absorbs
 * @source Morse & Ingard, Theoretical Acoustics, ch. 9; Kuttruff, Room Acoustics, ch. 3
 */
export function modalDamping_per_s(
  order: ModeOrder,
  size: BoxSize,
  speedOfSound_m_s: number,
  admittances_ratio: SixSurfaces,
): number {
  const [x0, x1, y0, y1, z0, z1] = admittances_ratio;
  const weight = (n: number) => (n === 0 ? 1 : 2);
  return (
    (positive('speedOfSound_m_s', speedOfSound_m_s) / 2) *
    ((weight(order[0]) * (x0 + x1)) / positive('x_m', size.x_m) +
      (weight(order[1]) * (y0 + y1)) / positive('y_m', size.y_m) +
      (weight(order[2]) * (z0 + z1)) / positive('z_m', size.z_m))
  );
}

/**
 * Decay time of one mode from what each surface absorbs, with β = α/8 (small α).
 *
 * For an oblique mode this is Sabine's formula; axial modes ring longer.
 * For larger α convert with `admittance_ratio` and use `modalDamping_per_s`.
 *
 * @param absorptions_ratio random-incidence α of each surface, 0 … 1
 * @returns seconds, or null if nothing absorbs
 * @source as `modalDamping_per_s`, with the small-α limit of Paris' formula
 */
export function modalDecayTime_s(
  order: ModeOrder,
  size: BoxSize,
  speedOfSound_m_s: number,
  absorptions_ratio: SixSurfaces,
): number | null {
  const [x0, x1, y0, y1, z0, z1] = absorptions_ratio;
  const admittances: SixSurfaces = [x0 / 8, x1 / 8, y0 / 8, y1 / 8, z0 / 8, z1 / 8];
  const damping_per_s = modalDamping_per_s(order, size, speedOfSound_m_s, admittances);
  return 0 < damping_per_s ? decayTime_s(damping_per_s) : null;
}
