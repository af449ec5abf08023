// Where each bell may stand and how strong it may be: the device's ranges, cut first, boosts only where a driver can follow.

import type { Steps } from '../../schema/model/gear.ts';
import type { Slot } from './bellFit.ts';
import type { BellGrid } from './bells.ts';
import type { EqualiserDevice, FitLimits } from './fitTask.ts';

/** A narrow boost rings, and mends one seat only. Common practice, no source. */
const BOOST_Q = 3;
/** Bells above the fitted range are no narrower than this: one seat's details are not cured there. Common practice, no source. */
const BROAD_Q = 1.5;
/** What stands for a range that a gear file leaves open. */
const USUAL_Q: readonly [number, number] = [0.3, 20];
const USUAL_CUT_DB = -24;

export type SlotKind = 'cut' | 'boost' | 'broad';

/** null where the device, or the limits, leave no room for such a bell. */
export function slotOf(
  kind: SlotKind,
  grid: BellGrid,
  device: EqualiserDevice,
  limits: FitLimits,
): Slot | null {
  const frequency = range_hz(kind, device, limits);
  const [leastQ, deviceQ] = rangeOf(device.q, USUAL_Q);
  const mostQ = Math.max(leastQ, Math.min(deviceQ, limits.most_q ?? deviceQ));
  const [deepest_db, highest_db] = rangeOf(device.gain_db, [USUAL_CUT_DB, 0]);
  const gain =
    kind === 'boost'
      ? [0, Math.min(highest_db, limits.boost?.most_db ?? 0)]
      : [deepest_db, Math.min(0, highest_db)];
  const topQ =
    kind === 'cut'
      ? mostQ
      : Math.max(leastQ, Math.min(mostQ, kind === 'boost' ? BOOST_Q : BROAD_Q));
  const [from_hz, to_hz] = frequency;
  const [least_db = 0, most_db = 0] = gain;
  if (!(0 < from_hz && from_hz <= to_hz) || !(least_db < most_db)) return null;
  return {
    low: [grid.placeOf(from_hz), Math.log(leastQ), least_db],
    high: [grid.placeOf(to_hz), Math.log(topQ), most_db],
  };
}

function range_hz(
  kind: SlotKind,
  device: EqualiserDevice,
  limits: FitLimits,
): readonly [number, number] {
  const [least_hz, most_hz] = rangeOf(device.frequency_hz, [
    limits.from_hz,
    limits.broadTo_hz ?? limits.to_hz,
  ]);
  if (kind === 'broad') {
    return [Math.max(least_hz, limits.to_hz), Math.min(most_hz, limits.broadTo_hz ?? 0)];
  }
  const floor_hz = kind === 'boost' ? (limits.boost?.from_hz ?? Number.POSITIVE_INFINITY) : 0;
  return [Math.max(least_hz, limits.from_hz, floor_hz), Math.min(most_hz, limits.to_hz)];
}

function rangeOf(
  { min, max, choices }: Steps,
  usual: readonly [number, number],
): readonly [number, number] {
  if (choices !== null && 0 < choices.length) return [Math.min(...choices), Math.max(...choices)];
  return [min ?? usual[0], max ?? usual[1]];
}
