// What has to be said with a fit: what it costs in headroom, whom it harms, what it leaves alone.

import type { EqualiserFit, FitTask, FitWarning, HeadroomCost } from './fitTask.ts';

/** Less is nothing that a meter or an ear could tell. */
const AUDIBLE_DB = 0.2;
/** A null that is raised by more than this wastes headroom for nothing. */
const RAISED_DB = 0.5;
/** What is left after all bands are in use and that further bands might still take. Common practice, no source. */
const LEFT_DB = 3;

export function headroomOf(
  frequency_hz: ArrayLike<number>,
  correction_db: ArrayLike<number>,
): HeadroomCost {
  let boost = { db: 0, at_hz: null as number | null };
  let cut = { db: 0, at_hz: null as number | null };
  for (let i = 0; i < correction_db.length; i++) {
    const level_db = correction_db[i] ?? 0;
    const at_hz = frequency_hz[i] ?? 0;
    if (boost.db < level_db) boost = { db: level_db, at_hz };
    if (cut.db < -level_db) cut = { db: -level_db, at_hz };
  }
  return { boost_db: boost.db, boostAt_hz: boost.at_hz, cut_db: cut.db, cutAt_hz: cut.at_hz };
}

/** In the order in which they matter. */
export function warningsOf(
  task: FitTask,
  { bands, correction_db, seats, after_db }: Omit<EqualiserFit, 'warnings'>,
): readonly FitWarning[] {
  const warnings: FitWarning[] = [];
  for (const { seat, before_db, after_db: then_db } of seats) {
    const by_db = then_db - before_db;
    if (AUDIBLE_DB < by_db) warnings.push({ kind: 'worse at a seat', seat, by_db });
  }
  for (const { seat, nulls } of seats) {
    for (const one of nulls) {
      warnings.push({ kind: 'null left', seat, null: one });
      const level_db = greatestWithin(task.frequency_hz, correction_db, one);
      if (RAISED_DB < level_db) {
        const { frequency_hz } = one;
        warnings.push({ kind: 'boost in a null', seat, frequency_hz, level_db });
      }
    }
  }
  if (bands.length === 0) warnings.push({ kind: 'nothing to cut' });
  if (bands.length === task.device.bands && LEFT_DB < after_db) {
    warnings.push({ kind: 'bands too few', left_db: after_db });
  }
  if ((task.placeCount ?? seats.length) === 1) warnings.push({ kind: 'one seat' });
  return warnings;
}

function greatestWithin(
  frequency_hz: ArrayLike<number>,
  level_db: ArrayLike<number>,
  { from_hz, to_hz }: { readonly from_hz: number; readonly to_hz: number },
): number {
  let greatest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < frequency_hz.length; i++) {
    const f_hz = frequency_hz[i] ?? 0;
    if (from_hz <= f_hz && f_hz <= to_hz) greatest = Math.max(greatest, level_db[i] ?? 0);
  }
  return greatest;
}
