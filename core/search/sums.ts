// The inner loops of a search: pressures at the seats added up, turned into levels, and judged; over all places of a source at a time.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { quickLevels } from './quickLevel.ts';
import type { PlacementTask, SearchedSub, SubSetting } from './searchTask.ts';
import type { TransferMap } from './transferMap.ts';

/** Pressures at all seats, `[seat * frequencyCount + frequency]`. */
export interface AtSeats {
  readonly re: Float64Array;
  readonly im: Float64Array;
}

export interface Judge {
  readonly seatCount: number;
  readonly frequencyCount: number;
  /** The cost of what stays and what is added at an offset of two long arrays; right to a millionth of a decibel or so. */
  readonly quickly: (ground: AtSeats, re: Float64Array, im: Float64Array, from: number) => number;
  /** The same for what is added times a drive, so that no long array has to be made for places that are tried once. */
  readonly quicklyDriven: (
    ground: AtSeats,
    map: TransferMap,
    drive: ComplexResponse,
    placeIndex: number,
  ) => number;
  /** The cost of a sum. */
  readonly exactly: (sum: AtSeats) => number;
  /** Levels re the target of a sum, dB; valid until the next call of any function here. */
  readonly levels_db: (sum: AtSeats) => Float64Array;
}

/** Keeps the logarithm of an exact zero finite: −3000 dB is below all that is. */
const LEAST_POWER = 1e-300;

export function judgeOf({
  subs,
  cost,
  target_db,
}: Pick<PlacementTask, 'subs' | 'cost' | 'target_db'>): Judge {
  const map = subs[0]?.map;
  const seatCount = map?.seatCount ?? 0;
  const frequencyCount = map?.frequency_hz.length ?? 0;
  const length = seatCount * frequencyCount;
  const levels = new Float64Array(length);
  const target = Float64Array.from({ length }, (_, i) => target_db?.[i % frequencyCount] ?? 0);
  const { power, toLevels_db } = quickLevels(length);
  const exactLevels_db = ({ re, im }: AtSeats): Float64Array => {
    for (let i = 0; i < length; i++) {
      const [x, y] = [re[i] as number, im[i] as number];
      levels[i] = 10 * Math.log10(x * x + y * y + LEAST_POWER) - (target[i] as number);
    }
    return levels;
  };
  return {
    seatCount,
    frequencyCount,
    quickly: (ground, re, im, from) => {
      for (let i = 0; i < length; i++) {
        const x = (ground.re[i] as number) + (re[from + i] as number);
        const y = (ground.im[i] as number) + (im[from + i] as number);
        power[i] = x * x + y * y + LEAST_POWER;
      }
      toLevels_db(target, levels);
      return cost(levels, seatCount, frequencyCount);
    },
    quicklyDriven: (ground, { re, im }, drive, placeIndex) => {
      let at = placeIndex * length;
      for (let i = 0, seat = 0; seat < seatCount; seat++) {
        for (let f = 0; f < frequencyCount; f++, i++, at++) {
          const hRe = re[at] as number;
          const hIm = im[at] as number;
          const dRe = drive.re[f] as number;
          const dIm = drive.im[f] as number;
          const x = (ground.re[i] as number) + hRe * dRe - hIm * dIm;
          const y = (ground.im[i] as number) + hRe * dIm + hIm * dRe;
          power[i] = x * x + y * y + LEAST_POWER;
        }
      }
      toLevels_db(target, levels);
      return cost(levels, seatCount, frequencyCount);
    },
    exactly: (sum) => cost(exactLevels_db(sum), seatCount, frequencyCount),
    levels_db: exactLevels_db,
  };
}

/** A sub's drive with its settings: level, polarity, delay. */
export function drivenBy(
  { drive, map }: Pick<SearchedSub, 'drive' | 'map'>,
  { level_db, delay_s, inverted }: SubSetting,
): ComplexResponse {
  const gain = (inverted ? -1 : 1) * 10 ** (level_db / 20);
  const re = new Float64Array(drive.re.length);
  const im = new Float64Array(drive.re.length);
  map.frequency_hz.forEach((f_hz, i) => {
    const angle = -2 * Math.PI * f_hz * delay_s;
    const cos = gain * Math.cos(angle);
    const sin = gain * Math.sin(angle);
    const dRe = drive.re[i] as number;
    const dIm = drive.im[i] as number;
    re[i] = dRe * cos - dIm * sin;
    im[i] = dRe * sin + dIm * cos;
  });
  return { re, im };
}

/** All transfers of a map times a drive: two arrays as long as the map's. */
export function drivenMap(map: TransferMap, drive: ComplexResponse): AtSeats {
  const count = map.frequency_hz.length;
  const re = new Float64Array(map.re.length);
  const im = new Float64Array(map.re.length);
  for (let i = 0, f = 0; i < re.length; i++, f = f + 1 === count ? 0 : f + 1) {
    const hRe = map.re[i] as number;
    const hIm = map.im[i] as number;
    const dRe = drive.re[f] as number;
    const dIm = drive.im[f] as number;
    re[i] = hRe * dRe - hIm * dIm;
    im[i] = hRe * dIm + hIm * dRe;
  }
  return { re, im };
}

/** What one place of a map does at the seats with a drive. */
export function atPlace(map: TransferMap, placeIndex: number, drive: ComplexResponse): AtSeats {
  const count = map.frequency_hz.length;
  const length = map.seatCount * count;
  const from = placeIndex * length;
  const part = (values: Float64Array) => values.subarray(from, from + length);
  return drivenMap({ ...map, re: part(map.re), im: part(map.im) }, drive);
}

/** The sum of several, a new one. */
export function added(parts: readonly AtSeats[], length: number): AtSeats {
  const sum = { re: new Float64Array(length), im: new Float64Array(length) };
  for (const { re, im } of parts) {
    for (let i = 0; i < length; i++) {
      sum.re[i] = (sum.re[i] as number) + (re[i] as number);
      sum.im[i] = (sum.im[i] as number) + (im[i] as number);
    }
  }
  return sum;
}

/** What does not move: the mains at each seat, or nothing. */
export function groundOf({ fixed }: Pick<PlacementTask, 'fixed'>, length: number): AtSeats {
  const ground = { re: new Float64Array(length), im: new Float64Array(length) };
  fixed?.forEach(({ re, im }, seat) => {
    ground.re.set(re, seat * re.length);
    ground.im.set(im, seat * im.length);
  });
  return ground;
}
