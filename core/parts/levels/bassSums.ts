// Bass sums: what bass management adds up to in each subwoofer, where it is added and what the driver has left.

import type { Room } from '../../../schema/model/room.ts';
import { bassSum_db, LFE_GAIN_DB } from '../../acoustics/levels.ts';
import type { BassSum, ReachFigures } from '../../levelFigures.ts';
import { grouped } from '../../signal/grouped.ts';
import type { TracedPath } from '../../signal/traced.ts';

/** One entry a subwoofer and set that gets more than one thing. */
export function bassSums(
  { subwoofers }: Pick<Room, 'subwoofers'>,
  paths: readonly TracedPath[],
  reach: readonly ReachFigures[],
): readonly BassSum[] {
  const ids = new Set(subwoofers.map(({ id }) => id));
  const toSubs = paths.filter(({ target }) => ids.has(target));
  const groups = grouped(toSubs, ({ target, set }) => JSON.stringify([target, set]));
  return [...groups.values()].flatMap((members): readonly BassSum[] => {
    const [first] = members;
    if (first === undefined) return [];
    const mains = new Set(
      members.filter(({ isLfe }) => !isLfe).map(({ source, channel }) => channel ?? source.port),
    );
    const lfe = members.find(({ isLfe }) => isLfe);
    const sum_db = bassSum_db(mains.size, lfe !== undefined);
    if (mains.size + (lfe ? 1 : 0) < 2) return [];
    const own = reach.filter(({ source, set }) => source === first.target && set === first.set);
    const worst = (own.find(({ isLfe }) => !isLfe) ?? own[0])?.worst ?? null;
    return [
      {
        sub: first.target,
        set: first.set,
        sum_db,
        atBus_db: atBus_db(
          mains.size,
          members.find(({ isLfe }) => !isLfe),
          lfe,
        ),
        headroom_db: worst === null ? null : worst.headroom_db - sum_db,
        frequency_hz: worst?.frequency_hz ?? null,
      },
    ];
  });
}

/** Each channel as its own way brings it to the bus, at full scale; the LFE with the gain dialled in. */
function atBus_db(
  mainCount: number,
  main: TracedPath | undefined,
  lfe: TracedPath | undefined,
): number {
  const busOf = (path: TracedPath | undefined) =>
    path?.busSums.reduce((sum_db, one) => sum_db + one.sum_db, 0) ?? 0;
  const lfeGain_db =
    lfe?.stages.reduce(
      (sum_db, { kind, value }) =>
        kind === 'lfe_gain' && value?.kind === 'level' ? sum_db + value.level_db : sum_db,
      0,
    ) ?? 0;
  const amplitude =
    mainCount * 10 ** (busOf(main) / 20) +
    (lfe ? 10 ** ((busOf(lfe) + Math.min(lfeGain_db, LFE_GAIN_DB)) / 20) : 0);
  return 20 * Math.log10(amplitude);
}
