// Named references: the listening levels that documents name for a room of this volume and channel count.

import { channelReference_dbspl, volumeReference_dbspl } from '../../acoustics/referenceLevel.ts';
import type { NamedReference } from '../../levelFigures.ts';

/** Rooms for which EBU Tech 3343 names its level. */
const EBU_3343_M3 = [125, 250] as const;

/**
 * In the order of the documents' names; those that need a figure which is not known are left out.
 *
 * All from memory but SMPTE's 85 dBC with noise at −20 dBFS and EBU's 73 dBC: advice, never compliance.
 */
export function namedReferences(
  volume_m3: number | null,
  channelCount: number,
): readonly NamedReference[] {
  const named: NamedReference[] = [];
  if (volume_m3 !== null && 0 < volume_m3)
    named.push({
      name: 'ATSC A/85',
      level_db: volumeReference_dbspl(volume_m3),
      weighting: 'C',
      signal_dbfs: -20,
      about: 'television, by the volume of the room',
      source: 'ATSC A/85 (from memory, unverified)',
    });
  if (0 < channelCount)
    named.push({
      name: 'EBU Tech 3276',
      level_db: channelReference_dbspl(channelCount),
      weighting: 'A',
      signal_dbfs: -18,
      about: `85 − 10 lg n for ${channelCount} channels`,
      source: 'EBU Tech 3276 §2.5, ITU-R BS.1116-1 (from memory)',
    });
  const [least_m3, most_m3] = EBU_3343_M3;
  const isInside = volume_m3 !== null && least_m3 <= volume_m3 && volume_m3 <= most_m3;
  if (isInside)
    named.push({
      name: 'EBU Tech 3343',
      level_db: 73,
      weighting: 'C',
      signal_dbfs: -23,
      about: 'rooms of 125 m³ to 250 m³, noise of 500 Hz to 2 kHz at −23 LUFS',
      source: 'EBU Tech 3343',
    });
  named.push(
    {
      name: 'ITU-R BS.1116-3',
      level_db: 78,
      weighting: 'A',
      signal_dbfs: -18,
      about: 'listening tests, each loudspeaker',
      source: 'ITU-R BS.1116-3 §8.4.1 (from memory, unverified)',
    },
    {
      name: 'SMPTE RP 200',
      level_db: 85,
      weighting: 'C',
      signal_dbfs: -20,
      about: 'film, each screen channel; 82 dBC each surround',
      source: 'SMPTE RP 200, ST 202',
    },
  );
  return named;
}
