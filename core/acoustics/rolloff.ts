// The natural roll-offs of a loudspeaker as filters, from what a data sheet says: −6 dB point, slope, kind of box.
//
// A data sheet gives level, not phase. The model is minimum phase with a maximally flat (Butterworth) shape of the stated
// slope; boxes of the same −6 dB point may be tuned otherwise, and `rolloffPhaseSpread_rad` says how much phase that leaves open.

import { type AnalogueFilter, filterAt, filterLevel_db } from './analogueFilter.ts';
import { phase_rad, wrapped_rad } from './complex.ts';
import { bessel, butterworth } from './crossoverFilter.ts';
import { positive } from './guard.ts';

export type BoxKind = 'sealed' | 'vented';

/** A high-pass that the maker built in below the pass band. */
export interface Protection {
  readonly frequency_hz: number;
  readonly order: number;
}

/** The lower end of a loudspeaker. */
export interface LowEnd {
  /** where the whole loudspeaker, protection included, is 6 dB down */
  readonly minus6db_hz: number;
  /** slope over 6 dB/octave; sealed boxes have 2, vented ones 4 */
  readonly order: number;
  readonly kind?: BoxKind;
  readonly protection?: Protection;
}

/** The upper end of a subwoofer. */
export interface HighEnd {
  readonly minus6db_hz: number;
  readonly order: number;
}

const SIX_DB = 6;

/**
 * The lower roll-off as a high-pass.
 *
 * With a protection filter the box's own part is placed so that both together are 6 dB down at the stated point. Where the
 * protection alone is already that far down, the data contradict each other and the protection alone is taken.
 *
 * @throws RangeError on a frequency that is not > 0 or an order outside 1–8
 * @source Small, J. Audio Eng. Soc. 1972/1973: sealed is second order, vented fourth; Butterworth shape: assumption of ours
 */
export function lowRolloff(lowEnd: LowEnd): AnalogueFilter {
  return placed(lowEnd, (corner_hz) => butterworth(lowEnd.order, 'high_pass', corner_hz));
}

/** The upper roll-off as a low-pass, the mirror image of the lower one. */
export function highRolloff({ minus6db_hz, order }: HighEnd): AnalogueFilter {
  const f6_hz = positive('minus6db_hz', minus6db_hz);
  return butterworth(order, 'low_pass', f6_hz / (10 ** (SIX_DB / 10) - 1) ** (1 / (2 * order)));
}

/** Both ends in a row; a missing end is flat. */
export function naturalRolloff(ends: {
  readonly low?: LowEnd | undefined;
  readonly high?: HighEnd | undefined;
}): AnalogueFilter {
  return [...(ends.low ? lowRolloff(ends.low) : []), ...(ends.high ? highRolloff(ends.high) : [])];
}

/**
 * Other tunings that would print the same −6 dB point and slope: for second order Q 0.5, 0.577 and 1, for fourth order
 * a Bessel shape and a sharper one of two equal sections of Q 0.9; for other orders none are tried.
 *
 * @source range of Q in use: Small 1972/1973 (from memory); common practice, no source
 */
export function rolloffAlternatives(lowEnd: LowEnd): readonly AnalogueFilter[] {
  if (lowEnd.order === 2) {
    return [0.5, 0.57735, 1].map((q) => placed(lowEnd, (corner_hz) => [highPass(corner_hz, q)]));
  }
  if (lowEnd.order === 4) {
    return [
      placed(lowEnd, (corner_hz) => bessel(4, 'high_pass', corner_hz)),
      placed(lowEnd, (corner_hz) => [highPass(corner_hz, 0.9), highPass(corner_hz, 0.9)]),
    ];
  }
  return [];
}

/**
 * How far the phase of the model may be off at a frequency, from the alternatives above: the greatest difference.
 *
 * @returns rad, >= 0; 0 for orders without alternatives (unknown, not certain)
 */
export function rolloffPhaseSpread_rad(lowEnd: LowEnd, frequency_hz: number): number {
  const model_rad = phase_rad(filterAt(lowRolloff(lowEnd), frequency_hz));
  return rolloffAlternatives(lowEnd).reduce((spread_rad, other) => {
    const difference_rad = wrapped_rad(phase_rad(filterAt(other, frequency_hz)) - model_rad);
    return Math.max(spread_rad, Math.abs(difference_rad));
  }, 0);
}

/** Moves a high-pass so that it and the protection together are 6 dB down at the stated point. */
function placed(lowEnd: LowEnd, at: (corner_hz: number) => AnalogueFilter): AnalogueFilter {
  const f6_hz = positive('minus6db_hz', lowEnd.minus6db_hz);
  const guard = lowEnd.protection
    ? butterworth(lowEnd.protection.order, 'high_pass', lowEnd.protection.frequency_hz)
    : [];
  const left_db = -SIX_DB - filterLevel_db(guard, f6_hz);
  if (0 <= left_db) return guard;
  const unit = at(1);
  return [...at(f6_hz / frequencyOfLevel(unit, left_db)), ...guard];
}

/** Where a high-pass with corner 1 Hz first comes up to a level below 0 dB: bisection in log frequency. */
function frequencyOfLevel(filter: AnalogueFilter, level_db: number): number {
  let low = 1e-4;
  let high = 1e4;
  for (let i = 0; i < 80; i++) {
    const middle = Math.sqrt(low * high);
    if (filterLevel_db(filter, middle) < level_db) low = middle;
    else high = middle;
  }
  return high;
}

function highPass(corner_hz: number, q: number): AnalogueFilter[number] {
  return { corner_hz, numerator: [1, 0, 0], denominator: [1, 1 / q, 1] };
}
