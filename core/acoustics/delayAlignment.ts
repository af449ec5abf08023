// The delay that brings two branches together over a whole stretch of frequencies, not at one frequency only.
//
// Phase at one frequency comes round every cycle, so many delays look right there. Over the overlap they do not: the loss of
// the sum against perfect addition tells them apart, and of those that are as good the smallest delay is taken.

import type { ComplexResponse } from './complex.ts';
import { positive } from './guard.ts';

/** Delays that may be dialled in, of the sub against the main; a negative one delays the main instead. */
export interface DelayRange {
  readonly least_s: number;
  readonly most_s: number;
  /** > 0 */
  readonly step_s: number;
}

export interface DelayChoice {
  readonly delay_s: number;
  /** rms over frequency of 20 lg((|M| + |S|)/|M + S|): 0 if both add up fully everywhere */
  readonly loss_db: number;
}

/** Two branches on one grid, ready to be shifted against each other. */
export interface Pairing {
  readonly omega_rad_s: Float64Array;
  readonly main_ratio: Float64Array;
  readonly sub_ratio: Float64Array;
  /** phase of the sub minus that of the main, without extra delay */
  readonly difference_rad: Float64Array;
}

/**
 * Prepares two branches for the search.
 *
 * @param used indices of the grid that count; left out, all
 */
export function pairing(
  frequencies_hz: ArrayLike<number>,
  main: ComplexResponse,
  sub: ComplexResponse,
  used: readonly number[] = Array.from({ length: frequencies_hz.length }, (_, i) => i),
): Pairing {
  const size = used.length;
  const result = emptyPairing(size);
  for (let i = 0; i < size; i++) {
    const gridIndex = used[i] as number;
    const mRe = main.re[gridIndex] as number;
    const mIm = main.im[gridIndex] as number;
    const sRe = sub.re[gridIndex] as number;
    const sIm = sub.im[gridIndex] as number;
    result.omega_rad_s[i] = 2 * Math.PI * (frequencies_hz[gridIndex] ?? Number.NaN);
    result.main_ratio[i] = Math.hypot(mRe, mIm);
    result.sub_ratio[i] = Math.hypot(sRe, sIm);
    result.difference_rad[i] = Math.atan2(sIm, sRe) - Math.atan2(mIm, mRe);
  }
  return result;
}

/** The frequencies of a pairing from one index to another, both included: a view of it, not a copy. */
export function stretchOfPairing(pair: Pairing, firstIndex: number, lastIndex: number): Pairing {
  return {
    omega_rad_s: pair.omega_rad_s.subarray(firstIndex, lastIndex + 1),
    main_ratio: pair.main_ratio.subarray(firstIndex, lastIndex + 1),
    sub_ratio: pair.sub_ratio.subarray(firstIndex, lastIndex + 1),
    difference_rad: pair.difference_rad.subarray(firstIndex, lastIndex + 1),
  };
}

function emptyPairing(size: number): Pairing {
  return {
    omega_rad_s: new Float64Array(size),
    main_ratio: new Float64Array(size),
    sub_ratio: new Float64Array(size),
    difference_rad: new Float64Array(size),
  };
}

/** Loss of the sum with an extra delay of the sub, as `DelayChoice.loss_db`; a null at any frequency gives infinity. */
export function summationLoss_db(pair: Pairing, inverted: boolean, delay_s: number): number {
  const turn_rad = inverted ? Math.PI : 0;
  let square = 0;
  const size = pair.omega_rad_s.length;
  for (let i = 0; i < size; i++) {
    const m = pair.main_ratio[i] as number;
    const s = pair.sub_ratio[i] as number;
    const angle =
      (pair.difference_rad[i] as number) + turn_rad - (pair.omega_rad_s[i] as number) * delay_s;
    if (m + s === 0) continue; // nothing there, nothing lost
    const power = m * m + s * s + 2 * m * s * Math.cos(angle);
    const loss_db = 10 * Math.log10(((m + s) * (m + s)) / Math.max(power, 0));
    square += loss_db * loss_db;
  }
  return Math.sqrt(square / size);
}

/**
 * The smallest delay that is as good as the best.
 *
 * @param pair at least one frequency
 * @param inverted polarity of the sub
 * @param range delays that may be set; only whole steps from `least_s` are answered
 * @param tolerance_db how much worse than the best loss counts as just as good; 0 asks for the best itself
 * @returns the delay nearest to 0 within the tolerance, and its loss
 * @throws RangeError on a step that is not > 0, or a range that is empty
 */
export function alignDelay(
  pair: Pairing,
  inverted: boolean,
  range: DelayRange,
  tolerance_db: number,
): DelayChoice {
  const valleys = lossValleys(pair, inverted, range, tolerance_db);
  const best_db = valleys.reduce((least, { loss_db }) => Math.min(least, loss_db), Infinity);
  return valleys
    .filter(({ loss_db }) => loss_db <= best_db + tolerance_db)
    .reduce((a, b) => (Math.abs(b.delay_s) < Math.abs(a.delay_s) ? b : a));
}

/**
 * Every delay in the range at which the loss has a valley, on the steps of the range, ascending.
 *
 * Coarse first (a twelfth of the period of the highest frequency, finer than any valley), then step by step downhill.
 *
 * @param tolerance_db valleys that stay clearly more than this above the best are left out; left out itself, all are given
 */
export function lossValleys(
  pair: Pairing,
  inverted: boolean,
  range: DelayRange,
  tolerance_db: number = Number.POSITIVE_INFINITY,
): readonly DelayChoice[] {
  const step_s = positive('step_s', range.step_s);
  const last = Math.floor((range.most_s - range.least_s) / step_s + 1e-9);
  if (!(0 <= last)) throw new RangeError(`no delay between ${range.least_s} and ${range.most_s}`);
  const highest_rad_s = pair.omega_rad_s.reduce((high, omega) => Math.max(high, omega), 0);
  const stride = Math.max(1, Math.floor(Math.PI / 6 / (highest_rad_s * step_s)));
  const loss = (k: number) => summationLoss_db(pair, inverted, range.least_s + k * step_s);
  const places = coarsePlaces(last, stride);
  const coarse = lossesAtStride_db(
    pair,
    inverted,
    { ...range, step_s: stride * step_s },
    places.length,
  );
  if (places.length !== 1 + last / stride) coarse[places.length - 1] = loss(last);
  const valleys: DelayChoice[] = [];
  const best_db = coarse.reduce((least, loss_db) => Math.min(least, loss_db), Infinity);
  const worth_db = best_db * 1.5 + 1 + tolerance_db; // going downhill from a coarse place brings less than this
  for (let i = 0; i < places.length; i++) {
    const k = places[i] as number;
    const here = coarse[i] ?? Infinity;
    if (worth_db < here) continue;
    if (here <= (coarse[i - 1] ?? Infinity) && here <= (coarse[i + 1] ?? Infinity)) {
      const lowest = downhill(loss, k, here, stride, last);
      valleys.push({ delay_s: range.least_s + lowest.place * step_s, loss_db: lowest.loss_db });
    }
  }
  return valleys;
}

/**
 * Losses at `least_s`, `least_s + step_s`, …: as `summationLoss_db`, but with one rotation in place of a cosine each.
 *
 * @returns dB, `count` of them
 */
function lossesAtStride_db(
  pair: Pairing,
  inverted: boolean,
  { least_s, step_s }: DelayRange,
  count: number,
): Float64Array {
  const losses_db = new Float64Array(count); // sums of squares at first
  const size = pair.omega_rad_s.length;
  for (let i = 0; i < size; i++) {
    const m = pair.main_ratio[i] as number;
    const s = pair.sub_ratio[i] as number;
    if (m + s === 0) continue;
    const omega = pair.omega_rad_s[i] as number;
    const angle = (pair.difference_rad[i] as number) - omega * least_s;
    const fixed = (m * m + s * s) / ((m + s) * (m + s));
    const swing = ((inverted ? -2 : 2) * m * s) / ((m + s) * (m + s));
    const turnCos = Math.cos(omega * step_s);
    const turnSin = Math.sin(omega * step_s);
    let cos = Math.cos(angle);
    let sin = Math.sin(angle);
    for (let k = 0; k < count; k++) {
      const loss = Math.log(Math.max(0, fixed + swing * cos));
      losses_db[k] = (losses_db[k] as number) + loss * loss;
      const next = cos * turnCos + sin * turnSin;
      sin = sin * turnCos - cos * turnSin;
      cos = next;
    }
  }
  for (let k = 0; k < count; k++)
    losses_db[k] = 10 * Math.LOG10E * Math.sqrt((losses_db[k] as number) / size);
  return losses_db;
}

function coarsePlaces(last: number, stride: number): number[] {
  const places = Array.from({ length: Math.floor(last / stride) + 1 }, (_, i) => i * stride);
  if (places.at(-1) !== last) places.push(last);
  return places;
}

/** From a place, halves the stride and moves to the lower neighbour until single steps bring nothing. */
function downhill(
  loss: (k: number) => number,
  from: number,
  loss_db: number,
  stride: number,
  last: number,
): { readonly place: number; readonly loss_db: number } {
  let place = from;
  let least = loss_db;
  for (let reach = Math.ceil(stride / 2); ; reach = Math.ceil(reach / 2)) {
    for (const k of [place - reach, place + reach]) {
      if (k < 0 || last < k) continue;
      const there = loss(k);
      if (there < least) {
        least = there;
        place = k;
      }
    }
    if (reach === 1) break;
  }
  for (;;) {
    const next = [place - 1, place + 1].find((k) => 0 <= k && k <= last && loss(k) < least);
    if (next === undefined) return { place, loss_db: least };
    place = next;
    least = loss(next);
  }
}
