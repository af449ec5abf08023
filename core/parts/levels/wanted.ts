// What is wanted at the seat: the reference level as a C-weighted figure of wide noise, and the peaks above it.

import type { Room } from '../../../schema/model/room.ts';
import { LFE_GAIN_DB } from '../../acoustics/levels.ts';
import { pinkNoiseWeighting_db, type Weighting } from '../../acoustics/weighting.ts';

/** Peaks above the reference level. @source film and mixing standards calibrate at −20 dBFS RMS: SMPTE RP 200; ATSC A/85 (from memory) */
export const PEAK_DB = 20;
/** Wide pink noise. */
const WIDE_HZ = [20, 20_000] as const;

/** The stated reference level, the room's or its policy's. */
export function statedReference({
  targets,
  policy,
}: Pick<Room, 'targets' | 'policy'>): Room['targets']['referenceLevel'] {
  return targets.referenceLevel ?? policy.referenceLevel;
}

/** The same level read with another weighting, wide pink noise. */
export function reweighted_db(level_db: number, from: Weighting, to: Weighting): number {
  return level_db + pinkNoiseWeighting_db(to, ...WIDE_HZ) - pinkNoiseWeighting_db(from, ...WIDE_HZ);
}

/** As a C-weighted figure, as peaks are counted from; null where none is stated. */
export function reference_dbc(room: Pick<Room, 'targets' | 'policy'>): number | null {
  const stated = statedReference(room);
  return stated === null ? null : reweighted_db(stated.level_db, stated.weighting, 'C');
}

/** The peak that a channel must reach at the seat. */
export function wantedPeak_db(reference_db: number | null, isLfe: boolean): number | null {
  return reference_db === null ? null : reference_db + PEAK_DB + (isLfe ? LFE_GAIN_DB : 0);
}
