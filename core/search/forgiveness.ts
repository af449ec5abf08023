// How forgiving a place is: how far a sub can be moved from it before the response at any seat changes by 3 dB.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { planDistance_m } from '../acoustics/point.ts';
import type { AtSeats, Judge } from './sums.ts';
import type { TransferMap } from './transferMap.ts';

/** A change that anyone hears. Common practice, no source. */
const CHANGE_DB = 3;
/** Farther away it is another place. */
const FARTHEST_m = 1.5;
/** A place so many times farther off than the radius found would have to change by as many times 3 dB. */
const STEEPEST = 4;
const THIRD_OCTAVE: number = 2 ** (1 / 6);

/**
 * Levels are third-octave means, since a null that moves by a hertz is no change that anyone hears. Between the place and the
 * map's next ones the change is taken to grow evenly.
 *
 * @param others what all others do at the seats
 * @param drive the sub's, as it is set
 * @returns null where no place of the map within 1.5 m changes the response so much
 */
export function forgiveness_m(
  judge: Judge,
  map: TransferMap,
  drive: ComplexResponse,
  others: AtSeats,
  placeIndex: number,
): number | null {
  const smooth = smoother(map, judge.seatCount, drive);
  const asIs = smooth(others, placeIndex).slice();
  let least: number | null = null;
  for (const [index, apart_m] of nearestFirst(map, placeIndex)) {
    // Nearer ones have settled it: this one could only be closer by its own steepness.
    if (least !== null && STEEPEST * least < apart_m) break;
    const change_db = greatestDifference(asIs, smooth(others, index));
    if (change_db < CHANGE_DB) continue;
    const radius_m = (apart_m * CHANGE_DB) / change_db;
    if (least === null || radius_m < least) least = radius_m;
  }
  return least;
}

/** The other places within reach, with their distances. */
function nearestFirst(
  { points }: TransferMap,
  placeIndex: number,
): readonly (readonly [index: number, apart_m: number])[] {
  const here = points[placeIndex];
  if (here === undefined) return [];
  return points
    .flatMap((point, index) => {
      const apart_m = planDistance_m(here, point);
      return index === placeIndex || FARTHEST_m < apart_m ? [] : [[index, apart_m] as const];
    })
    .sort(([, one_m], [, other_m]) => one_m - other_m);
}

function greatestDifference(one: Float64Array, other: Float64Array): number {
  let greatest = 0;
  for (let i = 0; i < one.length; i++)
    greatest = Math.max(greatest, Math.abs((one[i] as number) - (other[i] as number)));
  return greatest;
}

/** Third-octave means of the level of a sum, dB, `[seat * frequencyCount + frequency]`; one array, written anew each time. */
function smoother(
  { frequency_hz, re, im }: TransferMap,
  seatCount: number,
  drive: ComplexResponse,
) {
  const count = frequency_hz.length;
  const from = frequency_hz.map((f_hz) =>
    frequency_hz.findIndex((other_hz) => f_hz / THIRD_OCTAVE <= other_hz * (1 + 1e-9)),
  );
  const to = frequency_hz.map((f_hz) =>
    frequency_hz.findLastIndex((other_hz) => other_hz <= f_hz * THIRD_OCTAVE * (1 + 1e-9)),
  );
  const running = new Float64Array(count + 1);
  const out = new Float64Array(seatCount * count);
  return (one: AtSeats, placeIndex: number): Float64Array => {
    const place = placeIndex * seatCount * count;
    for (let seat = 0; seat < seatCount; seat++) {
      const base = seat * count;
      for (let f = 0; f < count; f++) {
        const hRe = re[place + base + f] as number;
        const hIm = im[place + base + f] as number;
        const dRe = drive.re[f] as number;
        const dIm = drive.im[f] as number;
        const x = (one.re[base + f] as number) + hRe * dRe - hIm * dIm;
        const y = (one.im[base + f] as number) + hRe * dIm + hIm * dRe;
        running[f + 1] = (running[f] as number) + x * x + y * y;
      }
      for (let f = 0; f < count; f++) {
        const [first, last] = [from[f] as number, to[f] as number];
        const power = (running[last + 1] as number) - (running[first] as number);
        out[base + f] = 10 * Math.log10(Math.max(power, 1e-300) / (last - first + 1));
      }
    }
    return out;
  };
}
