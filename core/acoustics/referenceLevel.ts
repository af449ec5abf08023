// Reference listening levels: by the number of channels, and by the volume of the room.

import { positive } from './guard.ts';

/**
 * Level of each loudspeaker so that all together make 85 dBA: 85 − 10 lg n.
 *
 * @param mainCount main channels, LFE not counted, >= 1
 * @returns dBA per loudspeaker, pink noise at −18 dBFS RMS, ±0.25 dB
 * @source EBU Tech 3276 §2.5 and ITU-R BS.1116-1 (formula from memory)
 */
export function channelReference_dbspl(mainCount: number): number {
  return 85 - 10 * Math.log10(positive('mainCount', mainCount));
}

/** A row of the table by volume: rooms of at least this volume. */
export interface VolumeReference {
  readonly atLeast_m3: number;
  readonly level_dbspl: number;
}

/**
 * Reference level by room volume, largest first.
 *
 * UNVERIFIED: from memory, one secondary text gives other end points; show as advice, never as compliance.
 *
 * @source ATSC A/85 (from memory); 1 ft³ = 0.0283168 m³: 20 000, 10 000, 5 000 and 1 500 ft³
 */
export const VOLUME_REFERENCES: readonly VolumeReference[] = [
  { atLeast_m3: 20_000 * 0.028316846592, level_dbspl: 82 },
  { atLeast_m3: 10_000 * 0.028316846592, level_dbspl: 80 },
  { atLeast_m3: 5000 * 0.028316846592, level_dbspl: 78 },
  { atLeast_m3: 1500 * 0.028316846592, level_dbspl: 76 },
  { atLeast_m3: 0, level_dbspl: 74 },
];

/** The figure of `VOLUME_REFERENCES` for a room, dBC slow, pink noise at −20 dBFS RMS; unverified. */
export function volumeReference_dbspl(volume_m3: number): number {
  positive('volume_m3', volume_m3);
  const row = VOLUME_REFERENCES.find(({ atLeast_m3 }) => atLeast_m3 <= volume_m3);
  return row?.level_dbspl ?? Number.NaN;
}
