// A placement while it is being searched for: places by their number in each sub's map.

import { planDistance_m } from '../acoustics/point.ts';
import type { PlacementTask, SearchedSub, SubSetting } from './searchTask.ts';

export interface Found {
  /** By sub: index into its map's points. */
  readonly placeIndices: readonly number[];
  readonly settings: readonly SubSetting[];
  readonly cost_db: number;
}

/** Whether a sub at a place stands clear of others. Different places only, where no distance is asked for. */
export function isApart(
  { subs, apart_m }: PlacementTask,
  subIndex: number,
  placeIndex: number,
  others: readonly (readonly [subIndex: number, placeIndex: number])[],
): boolean {
  const here = subs[subIndex]?.map.points[placeIndex];
  return others.every(([other, otherPlace]) => {
    const there = subs[other]?.map.points[otherPlace];
    if (here === undefined || there === undefined) return true;
    const distance = planDistance_m(here, there);
    return apart_m <= distance && 1e-9 < distance;
  });
}

export function sameSetting(one: SubSetting | undefined, other: SubSetting | undefined): boolean {
  return (
    one?.level_db === other?.level_db &&
    one?.delay_s === other?.delay_s &&
    one?.inverted === other?.inverted
  );
}

/** Subs that may change places with each other and nothing would change. */
export function areAlike(one: SearchedSub, other: SearchedSub): boolean {
  return (
    one.map === other.map &&
    one.drive.re.every((re, i) => re === other.drive.re[i]) &&
    one.drive.im.every((im, i) => im === other.drive.im[i])
  );
}
