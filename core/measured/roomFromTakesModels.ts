// How many figures absorption in the bass gets: one for all, one and a slope over the octaves, or one an octave; as many as the takes bear out.
//
// Weighed by −2 ln of the evidence in Laplace's approximation. Source: MacKay, Information Theory, Inference, and Learning Algorithms
// (2003), chapter 28, "Occam factor".

import { Matrix } from 'ml-matrix';
import type { OpenFigures } from './roomFromTakesFigures.ts';
import { logDeterminant, normal, type Reduced, type Solved } from './roomFromTakesSolve.ts';

/** `stated`: as the file has it. */
export type AbsorptionForm = 'stated' | 'factor' | 'slope' | 'octaves';

export interface AbsorptionModel extends Reduced {
  readonly form: AbsorptionForm;
}

/** One deviation of what is known of absorption beforehand: tables and laboratories. Common practice, no source. */
const COMMON_DEVIATION = Math.log(1.5);
/** Of one octave against the others, and of a slope by octave: what is wrong with a table is mostly wrong all over. Our own figure. */
const OCTAVE_DEVIATION = Math.log(1.25);

/** From the simplest to the richest, as many as there are octaves for. */
export function absorptionModels(open: OpenFigures): readonly AbsorptionModel[] {
  const octaveCount = open.bands_hz.length;
  const forms: readonly AbsorptionForm[] = [
    'stated',
    ...(1 <= octaveCount ? (['factor'] as const) : []),
    ...(2 <= octaveCount ? (['slope'] as const) : []),
    ...(3 <= octaveCount ? (['octaves'] as const) : []),
  ];
  return forms.map((form) => ({
    form,
    ...model(open, columns(open, form), precisionOf(open, form)),
  }));
}

/** Absorption in this form, only these sides, and no other speed of sound: what the file can say. */
export function writtenModel(
  open: OpenFigures,
  form: AbsorptionForm,
  sides: readonly number[],
): Reduced {
  return model(open, columns(open, form), precisionOf(open, form), sides, false);
}

function columns({ bands_hz }: OpenFigures, form: AbsorptionForm): readonly (readonly number[])[] {
  const octaves = bands_hz.map((band_hz) => Math.log2(band_hz));
  const middle = octaves.reduce((sum, one) => sum + one, 0) / octaves.length;
  switch (form) {
    case 'stated':
      return [];
    case 'factor':
      return [octaves.map(() => 1)];
    case 'slope':
      return [octaves.map(() => 1), octaves.map((one) => one - middle)];
    case 'octaves':
      return octaves.map((_, i) => octaves.map((_one, k) => (i === k ? 1 : 0)));
  }
}

function precisionOf({ bands_hz }: OpenFigures, form: AbsorptionForm): Matrix {
  const [common, own] = [COMMON_DEVIATION ** 2, OCTAVE_DEVIATION ** 2];
  switch (form) {
    case 'stated':
      return Matrix.zeros(0, 0);
    case 'factor':
      return new Matrix([[1 / common]]);
    case 'slope':
      return new Matrix([
        [1 / common, 0],
        [0, 1 / own],
      ]);
    case 'octaves': {
      const count = bands_hz.length;
      // Inverse of common · 1 + own · I. @source Sherman & Morrison (1950)
      const shared = common / (own * (own + count * common));
      return Matrix.sub(Matrix.eye(count).mul(1 / own), Matrix.ones(count, count).mul(shared));
    }
  }
}

const ALL_SIDES = [0, 1, 2] as const;

function model(
  { bands_hz, open_m, speedDeviation }: OpenFigures,
  absorption: readonly (readonly number[])[],
  known: Matrix,
  sides: readonly number[] = ALL_SIDES,
  hasSpeed = true,
): Reduced {
  const octaveCount = bands_hz.length;
  const figureCount = absorption.length + sides.length + (hasSpeed ? 1 : 0);
  const basis = Matrix.zeros(octaveCount + 4, figureCount);
  const precision = Matrix.zeros(figureCount, figureCount);
  absorption.forEach((column, k) => {
    column.forEach((value, i) => {
      basis.set(i, k, value);
    });
    absorption.forEach((_, other) => {
      precision.set(k, other, known.get(k, other));
    });
  });
  sides.forEach((side, i) => {
    const at = absorption.length + i;
    basis.set(octaveCount + side, at, 1);
    // Evenly likely within what is open: a deviation of its half over √3.
    precision.set(at, at, 3 / (open_m[side] ?? 1) ** 2);
  });
  if (hasSpeed) {
    basis.set(octaveCount + 3, figureCount - 1, 1);
    precision.set(figureCount - 1, figureCount - 1, 1 / speedDeviation ** 2);
  }
  return { basis, precision };
}

/** −2 ln of the evidence, but for what is common to all models. */
export function criterion(model: Reduced, solved: Solved, error_db: number): number {
  return (
    solved.cost + logDeterminant(normal(solved, model, error_db)) - logDeterminant(model.precision)
  );
}
