// Path bands: what the filters on each way take and add by third octaves, whatever stands where.

import type { Room } from '../../../schema/model/room.ts';
import { type AnalogueFilter, filterLevel_db } from '../../acoustics/analogueFilter.ts';
import { thirdOctaves } from '../../acoustics/thirdOctave.ts';
import { pathFilter } from '../../field/path.ts';
import type { TracedPath } from '../../signal/traced.ts';
import { naturalOf } from '../crossoverSides.ts';

export interface PathBand {
  readonly nominal_hz: number;
  readonly exact_hz: number;
  /** Crossover filters, without the equaliser. */
  readonly crossover_db: number;
  readonly equaliser_db: number;
  /** The driver's own roll-offs. */
  readonly natural_db: number;
}

/** Bands told: from the least that a data sheet tells of to where loudspeakers beam. */
const SUB_HZ = [20, 200] as const;
const MAIN_HZ = [31.5, 8000] as const;

/** One list a path, in their order. */
export function pathBands(
  room: Pick<Room, 'speakers' | 'subwoofers'>,
  paths: readonly TracedPath[],
): readonly (readonly PathBand[])[] {
  const speakers = new Map(room.speakers.map(({ id, gear }) => [id, gear]));
  const subwoofers = new Map(room.subwoofers.map(({ id, gear }) => [id, gear]));
  // Many ways share their filters: each is worked out once.
  const known = new Map<string, readonly PathBand[]>();
  return paths.map(({ target, stages }) => {
    const isEq = ({ kind }: (typeof stages)[number]) => kind === 'eq';
    const filters = {
      crossover: pathFilter({ stages: stages.filter((stage) => !isEq(stage)) }),
      equaliser: pathFilter({ stages: stages.filter(isEq) }),
    };
    const key = `${target}\n${JSON.stringify(filters)}`;
    const bands = known.get(key) ?? bandsOf();
    known.set(key, bands);
    return bands;

    function bandsOf(): readonly PathBand[] {
      const gear = speakers.get(target) ?? subwoofers.get(target) ?? null;
      const natural: AnalogueFilter = gear ? naturalOf(gear) : [];
      const [from_hz, to_hz] = subwoofers.has(target) ? SUB_HZ : MAIN_HZ;
      return thirdOctaves(from_hz, to_hz).map(({ nominal_hz, exact_hz }) => ({
        nominal_hz,
        exact_hz,
        crossover_db: filterLevel_db(filters.crossover, exact_hz),
        equaliser_db: filterLevel_db(filters.equaliser, exact_hz),
        natural_db: filterLevel_db(natural, exact_hz),
      }));
    }
  });
}
