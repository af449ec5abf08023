// Pair levels: how much louder the left one of a pair is at the reference seat, by gains, sensitivities and distances.

import { rightOf } from '../../layouts/pairs.ts';
import type { PairLevel } from '../../levelFigures.ts';
import { type Driven, fullScale_db, leading } from './driven.ts';

/** One entry a pair and set whose two levels can be compared. */
export function pairLevels(ways: readonly Driven[]): readonly PairLevel[] {
  const mains = leading(ways).filter(({ source, path }) => !source.isSubwoofer && !path.isLfe);
  return mains.flatMap((left) => {
    const wanted = left.source.channel === null ? null : rightOf(left.source.channel);
    const right = mains.find(
      ({ source, path }) =>
        wanted !== null && source.channel === wanted && path.set === left.path.set,
    );
    const difference_db = right ? levelDifference_db(left, right) : null;
    if (right === undefined || difference_db === null) return [];
    return [{ left: left.source.id, right: right.source.id, set: left.path.set, difference_db }];
  });
}

/** By absolute levels; for two of one model by gains and distances alone; null where neither tells. */
function levelDifference_db(left: Driven, right: Driven): number | null {
  const [a_db, b_db] = [fullScale_db(left), fullScale_db(right)];
  if (a_db !== null && b_db !== null) return a_db - b_db;
  const isAlike =
    left.source.gearId !== null &&
    left.source.gearId === right.source.gearId &&
    left.path.source.device === right.path.source.device;
  return isAlike
    ? left.path.gain_db - left.spread_db - (right.path.gain_db - right.spread_db)
    : null;
}
