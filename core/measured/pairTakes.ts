// Left against right: takes of two loudspeakers that mirror each other about a seat, each alone, at that seat.

import type { Path } from '../../schema/model/path.ts';
import type { Setup } from '../setup.ts';
import { isAsSet, type JudgedTake, readTakes } from './judgedTakes.ts';
import { thirdOctaveLevels } from './thirdOctaveLevels.ts';

export interface PairTakes {
  readonly session: string;
  readonly left: string;
  readonly right: string;
  readonly seat: string;
  /** Of the right one's take, where findings stand. */
  readonly path: Path;
  /** Right less left; null where the takes do not tell. */
  readonly arrival_s: number | null;
  readonly level_db: number | null;
  /** Where the middle third octaves differ most once the levels are matched; null where the takes do not reach there. */
  readonly response: { readonly frequency_hz: number; readonly off_db: number } | null;
}

/** Mirror images within this are a pair: common practice, no source. */
const MIRRORED_M = 0.3;
/** @source ITU-R BS.1116 (from memory): loudspeakers matched from 250 Hz to 2 kHz */
const MATCHED_HZ = [250, 2000] as const;

export function pairTakes(setup: Setup): readonly PairTakes[] {
  const alone = readTakes(setup).filter(
    (one) => one.given.sounding.length === 1 && one.given.at === null && isAsSet(one),
  );
  const { room } = setup;
  return alone.flatMap((left) =>
    alone.flatMap((right) => {
      if (left.session !== right.session || left.given.seat !== right.given.seat) return [];
      const [one, other] = [left, right].map(({ given }) =>
        room.speakers.find(({ id }) => id === given.sounding[0]),
      );
      const seat = room.seats.find(({ id }) => id === left.given.seat);
      if (!one?.at || !other?.at || !seat?.at || one.at.x_m >= other.at.x_m) return [];
      const isPair =
        one.gearId === other.gearId &&
        Math.abs(one.at.x_m + other.at.x_m - 2 * seat.at.x_m) <= MIRRORED_M &&
        Math.abs(one.at.y_m - other.at.y_m) <= MIRRORED_M;
      return isPair ? [compared(left, right, one.id, other.id, seat.id)] : [];
    }),
  );
}

function compared(
  { session, measured: left }: JudgedTake,
  { measured: right, given }: JudgedTake,
  leftId: string,
  rightId: string,
  seat: string,
): PairTakes {
  const level_db =
    left.level && right.level && 400 <= left.level.from_hz && 400 <= right.level.from_hz
      ? right.level.level_db - left.level.level_db
      : null;
  return {
    session,
    left: leftId,
    right: rightId,
    seat,
    path: given.path,
    arrival_s:
      left.arrival_s === null || right.arrival_s === null ? null : right.arrival_s - left.arrival_s,
    level_db,
    response: responseOff(left, right),
  };
}

function responseOff(
  left: JudgedTake['measured'],
  right: JudgedTake['measured'],
): PairTakes['response'] {
  if (left.response === null || right.response === null) return null;
  const [a, b] = [left.response, right.response].map((response) =>
    thirdOctaveLevels(response, ...MATCHED_HZ),
  );
  const offs = (a ?? []).flatMap(({ band, level_db }) => {
    const other = b?.find((one) => one.band.index === band.index);
    return other ? [{ frequency_hz: band.nominal_hz, off_db: other.level_db - level_db }] : [];
  });
  if (offs.length < 6) return null;
  const mean_db = offs.reduce((sum, { off_db }) => sum + off_db, 0) / offs.length;
  return offs
    .map((one) => ({ ...one, off_db: one.off_db - mean_db }))
    .reduce((most, one) => (Math.abs(most.off_db) < Math.abs(one.off_db) ? one : most));
}
