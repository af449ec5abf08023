// What turns phase and leaves level alone: all-passes of first and second order, the phase switch, and pure delay.

import type { AnalogueFilter } from './analogueFilter.ts';
import { type Complex, polar } from './complex.ts';
import { positive } from './guard.ts';

/** First order, (1 − p)/(1 + p): 0° at 0 Hz, −90° at the frequency, −180° far above. */
export function firstOrderAllPass(frequency_hz: number): AnalogueFilter {
  const corner_hz = positive('frequency_hz', frequency_hz);
  return [{ corner_hz, numerator: [0, -1, 1], denominator: [0, 1, 1] }];
}

/** Second order, (p² − p/Q + 1)/(p² + p/Q + 1): −180° at the frequency, −360° far above. */
export function secondOrderAllPass(frequency_hz: number, q: number): AnalogueFilter {
  const corner_hz = positive('frequency_hz', frequency_hz);
  const damping = 1 / positive('q', q);
  return [{ corner_hz, numerator: [1, -damping, 1], denominator: [1, damping, 1] }];
}

/**
 * A phase control told as a lag at a frequency, as many subwoofers have: one first-order all-pass up to 180°,
 * a reversal of polarity at 180° exactly.
 *
 * @param lag_rad 0 … π
 * @param frequency_hz at which the lag holds
 * @returns 0 a wire; π a reversal (the two that need no filter)
 * @throws RangeError on a lag outside 0 … π
 * @source common practice, no source: −2 arctan(f/f₀) = −lag
 */
export function phaseLag(lag_rad: number, frequency_hz: number): AnalogueFilter {
  if (!(0 <= lag_rad && lag_rad <= Math.PI)) {
    throw new RangeError(`lag_rad must be 0 … π, got ${lag_rad}`);
  }
  if (lag_rad === 0) return [];
  if (Math.PI - lag_rad < 1e-9) {
    return [
      {
        corner_hz: positive('frequency_hz', frequency_hz),
        numerator: [0, 0, -1],
        denominator: [0, 0, 1],
      },
    ];
  }
  return firstOrderAllPass(positive('frequency_hz', frequency_hz) / Math.tan(lag_rad / 2));
}

/** Response of a pure delay at a frequency, e^{−j2πfd}. */
export function delayAt(delay_s: number, frequency_hz: number): Complex {
  return polar(1, -2 * Math.PI * frequency_hz * delay_s);
}

/** Phase that a time is worth at a frequency, not wrapped. */
export function phaseOfTime_rad(time_s: number, frequency_hz: number): number {
  return 2 * Math.PI * frequency_hz * time_s;
}
