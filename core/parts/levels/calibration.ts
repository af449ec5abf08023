// Calibration: what a meter should read at the reference seat for band-limited pink noise, channel by channel.

import type { Room } from '../../../schema/model/room.ts';
import { LFE_GAIN_DB } from '../../acoustics/levels.ts';
import { pinkNoisePart_db, pinkNoiseWeighting_db } from '../../acoustics/weighting.ts';
import type { CalibrationTarget } from '../../levelFigures.ts';
import { grouped } from '../../signal/grouped.ts';
import type { TracedPath } from '../../signal/traced.ts';
import { statedReference } from './wanted.ts';

/** Mains by a hand-held meter. @source EBU Tech 3343 */
const MAIN_HZ = [500, 2000] as const;
/** Subwoofers and LFE: common practice, no source. */
const SUB_HZ = [40, 80] as const;
const WIDE_HZ = [20, 20_000] as const;
/** @source SMPTE RP 200 for C-weighted levels; EBU Tech 3276 §2.5, ITU-R BS.1116 for A-weighted ones (from memory) */
const SIGNAL_DBFS = { A: -18, C: -20 } as const;
/** @source EBU Tech 3276, ITU-R BS.1116: ±0.25 dB (from memory) */
const MAIN_TOLERANCE_DB = 0.25;
/** Modes move a band of an octave by more: common practice, no source. */
const SUB_TOLERANCE_DB = 1;

/**
 * Readings for each channel: mains, then what each subwoofer makes of a main channel's bass, then the LFE.
 *
 * The reference level is what the meter reads for a main's band at the named RMS level. A bass band reads lower by what the
 * weighting takes from it; the LFE reads 10 dB above a main channel's bass.
 *
 * @returns empty where no reference level is stated
 */
export function calibrationTargets(
  room: Pick<Room, 'targets' | 'policy' | 'speakers' | 'subwoofers'>,
  paths: readonly TracedPath[],
): readonly CalibrationTarget[] {
  const stated = statedReference(room);
  if (stated === null) return [];
  const weighting = stated.weighting === 'A' ? 'A' : 'C';
  const flat_db = stated.level_db - pinkNoiseWeighting_db(weighting, ...MAIN_HZ);
  const signal_dbfs = SIGNAL_DBFS[weighting];
  const source =
    weighting === 'A'
      ? 'EBU Tech 3276 §2.5, ITU-R BS.1116: −18 dBFS RMS, A (from memory); band: EBU Tech 3343'
      : 'SMPTE RP 200: −20 dBFS RMS, C, slow; band: EBU Tech 3343';
  const subs = new Set(room.subwoofers.map(({ id }) => id));
  const named = paths.flatMap((path) =>
    path.channel === null ? [] : [{ ...path, channel: path.channel }],
  );
  const groups = [...grouped(named, ({ channel, set }) => JSON.stringify([channel, set])).values()];
  const targets = groups.flatMap((members): readonly CalibrationTarget[] => {
    const [first] = members;
    if (first === undefined) return [];
    const { channel, set } = first;
    const common = { channel, set, signal_dbfs };
    const ids = [...new Set(members.map(({ target }) => target))];
    const carriers = ids.filter((id) => subs.has(id));
    const mains = ids.filter((id) => !subs.has(id));
    const reading = (band_hz: readonly [number, number], of: 'A' | 'C', above_db: number) => {
      const reading_db = flat_db + above_db + pinkNoiseWeighting_db(of, ...band_hz);
      return {
        band_hz,
        weighting: of,
        reading_db,
        cut_db: reading_db + pinkNoisePart_db(band_hz, WIDE_HZ),
      };
    };
    if (members.some(({ isLfe }) => isLfe)) {
      // A takes 27 dB from a band so low: the LFE is read with C whatever the mains are read with.
      return [
        {
          ...common,
          kind: 'lfe',
          sources: carriers,
          ...reading(SUB_HZ, 'C', LFE_GAIN_DB),
          tolerance_db: SUB_TOLERANCE_DB,
          source:
            'ITU-R BS.775-3 Annex 7: +10 dB in band; band 40–80 Hz: common practice, no source',
        },
      ];
    }
    const found: CalibrationTarget[] = [];
    if (0 < mains.length)
      found.push({
        ...common,
        kind: 'main',
        sources: mains,
        ...reading(MAIN_HZ, weighting, 0),
        tolerance_db: MAIN_TOLERANCE_DB,
        source,
      });
    if (0 < carriers.length)
      found.push({
        ...common,
        kind: 'bass',
        sources: ids,
        ...reading(SUB_HZ, 'C', 0),
        tolerance_db: SUB_TOLERANCE_DB,
        source: 'equal level in the bass; band 40–80 Hz: common practice, no source',
      });
    return found;
  });
  const order = ['main', 'bass', 'lfe'];
  return targets.toSorted((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind));
}
