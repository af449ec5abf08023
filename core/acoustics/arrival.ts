// When sound arrives: flight times, and the time by which one path is behind another.

import { positive } from './guard.ts';
import { distance_m, type Point3 } from './point.ts';

/** Time of flight over a distance. */
export function flight_s(path_m: number, speedOfSound_m_s: number): number {
  return path_m / positive('speedOfSound_m_s', speedOfSound_m_s);
}

/** Time of flight from one place to another. */
export function flightBetween_s(from: Point3, to: Point3, speedOfSound_m_s: number): number {
  return flight_s(distance_m(from, to), speedOfSound_m_s);
}

/**
 * Level of a small source over distance in the direct field, re its level at a reference distance.
 *
 * @returns dB, −20 lg(d/d₀): −6.02 dB a doubling
 */
export function distanceLevel_db(path_m: number, reference_m: number): number {
  return -20 * Math.log10(positive('path_m', path_m) / positive('reference_m', reference_m));
}

/**
 * How long each arrival is behind the latest: the delays that bring all together.
 *
 * @param arrivals_s any zero of time; empty gives empty
 * @returns seconds, >= 0, in the order given; 0 for the latest
 */
export function delaysToLatest_s(arrivals_s: readonly number[]): readonly number[] {
  const latest_s = Math.max(...arrivals_s);
  return arrivals_s.map((arrival_s) => latest_s - arrival_s);
}
