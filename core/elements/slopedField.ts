// The low-frequency field of a room under a sloped ceiling: its rigid-wall modes, coupled by the admittance of every surface.
//
//   (Λ + jk Σ β_s ∮_s φφᵀ − k²) c = φ(source), p = jωρ φ(receiver)ᵀ c, e^{+jωt}; φ scaled so that ∫φ² dV = 1.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import type { Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point3 } from '../acoustics/point.ts';
import { factorComplex } from './complexSolve.ts';
import type { PrismField, PrismSurfaces } from './prismField.ts';
import type { RoomGeometry } from './roomModes.ts';
import { type SlopedModes, slopedModes } from './slopedModes.ts';
import { surfaceProducts } from './slopedSurfaces.ts';

/** Modes to this many times the highest frequency take part. */
const MODES_BEYOND = 1.2;

/**
 * @param surfacesAt admittances at a frequency (Hz)
 * @param frequency_hz ascending, > 0
 * @throws RangeError on a plan that crosses itself or a ceiling that meets the floor
 */
export function prepareSlopedField(
  geometry: RoomGeometry,
  surfacesAt: (frequency_hz: number) => PrismSurfaces,
  medium: Medium,
  frequency_hz: readonly number[],
): PrismField {
  const top_hz = frequency_hz[frequency_hz.length - 1] ?? 150;
  const modes = slopedModes(geometry, medium.speedOfSound_m_s, top_hz * MODES_BEYOND);
  const products = surfaceProducts(geometry, modes);
  return {
    frequency_hz,
    listenAt: (receivers) => {
      const ears = receivers.map((at) => modes.shapesAt(at));
      const heard = frequency_hz.map((f_hz) => {
        const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
        return solved(modes, coupling(products, surfacesAt(f_hz), k), k, ears);
      });
      return (source) => transfers(modes, heard, source, frequency_hz, medium, receivers);
    },
  };
}

/** jk Σ β_s ∮_s φφᵀ, interleaved. */
function coupling(
  { walls, floor, ceiling }: ReturnType<typeof surfaceProducts>,
  at: PrismSurfaces,
  k: number,
): Float64Array {
  const system = new Float64Array(2 * floor.length);
  const add = (table: Float64Array, { real, imaginary }: Admittance) => {
    for (let i = 0; i < table.length; i++) {
      const value = k * (table[i] as number);
      system[2 * i] = (system[2 * i] as number) - imaginary * value;
      system[2 * i + 1] = (system[2 * i + 1] as number) + real * value;
    }
  };
  add(floor, at.floor);
  add(ceiling, at.ceiling);
  walls.forEach((table, wall) => {
    add(table, at.walls[wall] ?? { real: 0, imaginary: 0 });
  });
  return system;
}

/** Modal coefficients by receiver, interleaved: by reciprocity each receiver is solved for as if it were the source. */
function solved(
  { value }: SlopedModes,
  system: Float64Array,
  k: number,
  ears: readonly Float64Array[],
): Float64Array[] {
  const n = value.length;
  for (let i = 0; i < n; i++) {
    const at = 2 * (i * n + i);
    system[at] = (system[at] as number) + (value[i] as number) - k * k;
  }
  const solve = factorComplex(system, n);
  return ears.map((ear) => {
    const x = new Float64Array(2 * n);
    for (let i = 0; i < n; i++) x[2 * i] = ear[i] as number;
    solve(x);
    return x;
  });
}

function transfers(
  modes: SlopedModes,
  heard: readonly (readonly Float64Array[])[],
  source: Point3,
  frequency_hz: readonly number[],
  { density_kg_m3 }: Medium,
  receivers: readonly Point3[],
): { readonly re: Float64Array; readonly im: Float64Array }[] {
  const there = modes.shapesAt(source);
  return receivers.map((_, r) => {
    const re = new Float64Array(frequency_hz.length);
    const im = new Float64Array(frequency_hz.length);
    heard.forEach((ears, f) => {
      const c = ears[r] as Float64Array;
      let sumRe = 0;
      let sumIm = 0;
      for (let i = 0; i < there.length; i++) {
        sumRe += (there[i] as number) * (c[2 * i] as number);
        sumIm += (there[i] as number) * (c[2 * i + 1] as number);
      }
      const scale = 2 * Math.PI * (frequency_hz[f] ?? 0) * density_kg_m3;
      re[f] = -scale * sumIm;
      im[f] = scale * sumRe;
    });
    return { re, im };
  });
}
