// Reverberation time from absorption, by the statistical formulas, and the frequency above which they hold.

import { notNegative, positive } from './guard.ts';

/** One surface, or all surfaces of one material. */
export interface AbsorbingArea {
  readonly area_m2: number;
  /** random-incidence absorption, >= 0; tables may exceed 1 */
  readonly absorption_ratio: number;
}

/** What the formulas need besides the surfaces. */
export interface RoomAir {
  readonly volume_m3: number;
  readonly speedOfSound_m_s: number;
  /** energy loss in air, `airEnergyLoss_per_m`; 0 leaves it out */
  readonly airLoss_per_m: number;
}

/**
 * Equivalent absorption area, Σ S α.
 *
 * @returns m²
 */
export function absorptionArea_m2(surfaces: readonly AbsorbingArea[]): number {
  return surfaces.reduce((sum, s) => sum + s.area_m2 * s.absorption_ratio, 0);
}

/** Area-weighted mean absorption. @throws RangeError without any area */
export function meanAbsorption_ratio(surfaces: readonly AbsorbingArea[]): number {
  return absorptionArea_m2(surfaces) / positive('total area_m2', totalArea_m2(surfaces));
}

/**
 * Sabine's time, T = 24 ln 10 V / (c (A + 4mV)).
 *
 * @returns seconds, or null if nothing absorbs
 * @source Sabine; Kuttruff, Room Acoustics; 0.161 V/A at 343 m/s
 */
export function sabine_s(surfaces: readonly AbsorbingArea[], room: RoomAir): number | null {
  return decayOf(absorptionArea_m2(surfaces), room);
}

/**
 * Eyring's time, with −S ln(1 − ᾱ) in place of A: for rooms that absorb much.
 *
 * @returns seconds; null if nothing absorbs, or the mean absorption is 1 or more
 * @source Eyring 1930; Kuttruff, Room Acoustics
 */
export function eyring_s(surfaces: readonly AbsorbingArea[], room: RoomAir): number | null {
  const mean_ratio = meanAbsorption_ratio(surfaces);
  if (1 <= mean_ratio) return null;
  return decayOf(-totalArea_m2(surfaces) * Math.log(1 - mean_ratio), room);
}

/** The three pairs of opposite surfaces of a box-like room; each a list, its mean is taken. */
export type OppositePairs = readonly [
  x: readonly AbsorbingArea[],
  y: readonly AbsorbingArea[],
  z: readonly AbsorbingArea[],
];

/**
 * Fitzroy's time for absorption that is unevenly spread: the area-weighted mean of one time a pair, without air loss.
 *
 * @returns seconds; null if a pair absorbs nothing or all
 * @source Fitzroy, J. Acoust. Soc. Am. 31 (1959) 893
 */
export function fitzroy_s(pairs: OppositePairs, room: RoomAir): number | null {
  return weightedTime(pairs, room, (parts) =>
    parts.reduce((sum, { share_ratio, time_s }) => sum + share_ratio * time_s, 0),
  );
}

/**
 * Arau-Puchades' time for uneven absorption: the area-weighted geometric mean of one time a pair, without air loss.
 *
 * @returns seconds; null if a pair absorbs nothing or all
 * @source Arau-Puchades, Acustica 65 (1988) 163 (from memory)
 */
export function arauPuchades_s(pairs: OppositePairs, room: RoomAir): number | null {
  return weightedTime(pairs, room, (parts) =>
    Math.exp(
      parts.reduce((sum, { share_ratio, time_s }) => sum + share_ratio * Math.log(time_s), 0),
    ),
  );
}

/**
 * Frequency above which modes overlap threefold and statistics hold, 2000 √(T/V).
 *
 * @source Schroeder, J. Acoust. Soc. Am. 99 (1996) 3240; Kuttruff, Room Acoustics, 6th ed., Eq. (3.44)
 */
export function schroederFrequency_hz(reverberation_s: number, volume_m3: number): number {
  return (
    2000 *
    Math.sqrt(notNegative('reverberation_s', reverberation_s) / positive('volume_m3', volume_m3))
  );
}

/**
 * The mean time that the listening-room documents ask for, 0.25 (V/100 m³)^(1/3), 200 Hz to 4 kHz.
 *
 * @source EBU Tech 3276 (1998); ITU-R BS.1116-3 §8.2.3.1
 */
export function meanReverberationTarget_s(volume_m3: number): number {
  return 0.25 * Math.cbrt(positive('volume_m3', volume_m3) / 100);
}

/**
 * Distance at which direct and reverberant sound are equal, 0.057 √(Q V/T).
 *
 * @param directivity_ratio directivity factor Q of the source, 1 all round
 * @source Kuttruff, Room Acoustics (from memory)
 */
export function criticalDistance_m(
  volume_m3: number,
  reverberation_s: number,
  directivity_ratio: number,
): number {
  return (
    0.057 *
    Math.sqrt((directivity_ratio * volume_m3) / positive('reverberation_s', reverberation_s))
  );
}

function totalArea_m2(surfaces: readonly AbsorbingArea[]): number {
  return surfaces.reduce((sum, { area_m2 }) => sum + area_m2, 0);
}

function decayOf(absorption_m2: number, room: RoomAir): number | null {
  const volume_m3 = positive('volume_m3', room.volume_m3);
  const all_m2 = absorption_m2 + 4 * room.airLoss_per_m * volume_m3;
  const speed_m_s = positive('speedOfSound_m_s', room.speedOfSound_m_s);
  return 0 < all_m2 ? (24 * Math.LN10 * volume_m3) / (speed_m_s * all_m2) : null;
}

interface PairTime {
  readonly share_ratio: number;
  readonly time_s: number;
}

/** Eyring's time of a room all of whose surface were like one pair, for each pair, then a mean of the three. */
function weightedTime(
  pairs: OppositePairs,
  room: RoomAir,
  mean: (parts: readonly PairTime[]) => number,
): number | null {
  const all_m2 = pairs.reduce((sum, pair) => sum + totalArea_m2(pair), 0);
  const parts: PairTime[] = [];
  for (const pair of pairs) {
    const absorption_ratio = meanAbsorption_ratio(pair);
    const time_s = eyring_s([{ area_m2: all_m2, absorption_ratio }], { ...room, airLoss_per_m: 0 });
    if (time_s === null) return null;
    parts.push({ share_ratio: totalArea_m2(pair) / all_m2, time_s });
  }
  return mean(parts);
}
