// What the bands that were found do at seats that they were not fitted to: cure and harm alike.

import { medianOf } from '../field/extremes.ts';
import { aimOf, seatDistance_db } from './aim.ts';
import { warningsOf } from './fitRemarks.ts';
import type { EqualiserFit, FitSeat, FitTask, FitWarning, SeatFit } from './fitTask.ts';

export interface CheckedSeat extends SeatFit {
  /** The fit's target, laid through the middle of what is heard here: how loud the seat is as a whole is no fault of the bands. */
  readonly target_db: readonly number[];
}

/** @param others each on the task's grid */
export function checkedSeats(
  task: FitTask,
  { correction_db }: Pick<EqualiserFit, 'correction_db'>,
  others: readonly FitSeat[],
): readonly CheckedSeat[] {
  const zero = new Float64Array(correction_db.length);
  return others.map((seat) => {
    const levels_db = Array.from(seat.level_db);
    const offset_db = medianOf(levels_db.map((level, i) => level - (task.target_db[i] ?? 0)));
    const target_db = Array.from(task.target_db, (level) => level + offset_db);
    const own = { ...task, target_db, seats: [seat] };
    const { counts, nulls } = aimOf(own, [seat.weight]);
    const distance_db = (correction: ArrayLike<number>) =>
      seatDistance_db(own, seat, counts[0] ?? zero, correction);
    return {
      seat: seat.seat,
      target_db,
      before_db: distance_db(zero),
      after_db: distance_db(correction_db),
      level_db: correction_db.map((level, i) => level + (levels_db[i] ?? 0)),
      nulls: nulls[0] ?? [],
    };
  });
}

/** Whom the bands harm among them, and whose nulls they raise. */
export function checkedWarnings(
  task: FitTask,
  fit: EqualiserFit,
  checked: readonly CheckedSeat[],
): readonly FitWarning[] {
  return warningsOf(task, { ...fit, seats: checked }).filter(
    ({ kind }) => kind === 'worse at a seat' || kind === 'boost in a null',
  );
}
