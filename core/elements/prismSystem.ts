// Plan modes coupled by the admittance of the walls: the linear systems of the field of a room with a level ceiling.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import { factorComplex } from './complexSolve.ts';

/** jk Σ β_w ∮_w φφᵀ, interleaved. */
export function wallSystem(
  couplings: readonly Float64Array[],
  walls: readonly Admittance[],
  k: number,
  count: number,
): Float64Array {
  const system = new Float64Array(2 * count * count);
  couplings.forEach((table, wall) => {
    const { real, imaginary } = walls[wall] ?? { real: 0, imaginary: 0 };
    for (let at = 0; at < table.length; at++) {
      const value = table[at] as number;
      system[2 * at] = (system[2 * at] as number) - k * imaginary * value;
      system[2 * at + 1] = (system[2 * at + 1] as number) + k * real * value;
    }
  });
  return system;
}

/** Solves (Λ + walls + shift) c = b: coupled for the first modes, by the diagonal for the others. */
export function planSolver(
  values: Float64Array,
  system: Float64Array,
  coupled: number,
  shiftRe: number,
  shiftIm: number,
): (b: Float64Array) => Float64Array {
  const count = values.length;
  const a = new Float64Array(2 * coupled * coupled);
  for (let i = 0; i < coupled; i++) {
    a.set(system.subarray(2 * i * count, 2 * (i * count + coupled)), 2 * i * coupled);
    const at = 2 * (i * coupled + i);
    a[at] = (a[at] as number) + (values[i] as number) + shiftRe;
    a[at + 1] = (a[at + 1] as number) + shiftIm;
  }
  const solve = factorComplex(a, coupled);
  return (b) => {
    const x = new Float64Array(2 * count);
    b.forEach((value, i) => {
      x[2 * i] = value;
    });
    solve(x.subarray(0, 2 * coupled));
    for (let i = coupled; i < count; i++) {
      const at = 2 * (i * count + i);
      const re = (values[i] as number) + shiftRe + (system[at] as number);
      const im = shiftIm + (system[at + 1] as number);
      const size = re * re + im * im;
      const value = b[i] as number;
      x[2 * i] = (value * re) / size;
      x[2 * i + 1] = (-value * im) / size;
    }
    return x;
  };
}
