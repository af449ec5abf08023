// What a fit of the room says: each figure with its error and whether the takes tell it, and which of them would be written.

import type { FittedBand, FittedSide, RoomFromTakes } from './roomFromTakes.ts';
import {
  bandValues,
  fittedBands,
  type OpenFigures,
  sideValues,
  speedValue,
} from './roomFromTakesFigures.ts';
import { SIDES } from './roomFromTakesSides.ts';
import { errorsOf, normal, type Reduced, type Solved } from './roomFromTakesSolve.ts';

/** An error that is still so much of what was open beforehand tells nothing. */
const UNTOLD_SHARE = 0.7;
/** What is not beyond twice its error is no change. */
const CLEAR = 2;
/** Less is no change anyone would write down. */
const LEAST_M = 0.002;

/** What would be written. */
export interface Written {
  readonly values: readonly number[];
  readonly hasAbsorption: boolean;
  /** By their place among width, depth and height. */
  readonly sides: readonly number[];
}

export type Told = Pick<RoomFromTakes, 'bands' | 'sides' | 'speed'>;

export function toldBy(
  open: OpenFigures,
  model: Reduced,
  solved: Solved,
  error_db: number,
): Told & { readonly values: readonly number[] } {
  const errors = errorsOf(normal(solved, model, error_db), model);
  const beforehand = errorsOf(model.precision, model);
  const isTold = (i: number) => (errors[i] ?? 1) <= UNTOLD_SHARE * (beforehand[i] ?? 0);
  const { values } = solved;
  const octaveCount = open.bands_hz.length;
  return {
    values,
    bands: bandsOf(open, values).map((band, i) => ({
      ...band,
      error_ratio: errors[i] ?? 0,
      isTold: isTold(i),
      isWritten: false,
    })),
    sides: SIDES.map((side, axis) => ({
      side,
      by_m: sideValues(open, values)[axis] ?? 0,
      error_m: errors[octaveCount + axis] ?? 0,
      open_m: open.open_m[axis] ?? 0,
      isTold: isTold(octaveCount + axis),
      isWritten: false,
    })),
    speed: {
      ratio: Math.exp(speedValue(open, values)),
      error_ratio: errors[octaveCount + 3] ?? 0,
      isTold: isTold(octaveCount + 3),
    },
  };
}

function bandsOf(
  open: OpenFigures,
  values: readonly number[],
): readonly Pick<FittedBand, 'frequency_hz' | 'stated_s' | 'fitted_s' | 'absorption_ratio'>[] {
  const fitted = fittedBands(open, bandValues(open, values));
  return open.bands_hz.map((frequency_hz, i) => {
    const at = open.decay.bands.findIndex((band) => band.frequency_hz === frequency_hz);
    return {
      frequency_hz,
      stated_s: open.decay.bands[at]?.decayTime_s ?? 0,
      fitted_s: fitted[at]?.decayTime_s ?? 0,
      absorption_ratio: Math.exp(values[i] ?? 0),
    };
  });
}

export function isClear({ isTold, by_m, error_m }: FittedSide): boolean {
  return isTold && Math.max(LEAST_M, CLEAR * error_m) <= Math.abs(by_m);
}

/** Of what would be written, the values that would; of all else what the takes say, with its error. */
export function reported(
  open: OpenFigures,
  told: Told,
  written: Written | null,
): Told & Pick<RoomFromTakes, 'absorption_ratio' | 'size_m'> {
  const own = written?.hasAbsorption ? bandsOf(open, written.values) : null;
  const bands = told.bands.map((band, i) => ({
    ...band,
    ...own?.[i],
    isWritten: own !== null,
  }));
  const sides = told.sides.map((side, axis) =>
    written?.sides.includes(axis)
      ? { ...side, by_m: sideValues(open, written.values)[axis] ?? 0, isWritten: true }
      : side,
  );
  const [x = 0, y = 0, z = 0] = sides.map(({ by_m }) => by_m);
  const logs = bands.map(({ absorption_ratio }) => Math.log(absorption_ratio));
  return {
    bands,
    sides,
    speed: told.speed,
    absorption_ratio: Math.exp(logs.reduce((sum, log) => sum + log, 0) / Math.max(1, logs.length)),
    size_m: [x, y, z],
  };
}
