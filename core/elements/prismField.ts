// The low-frequency field of a room with any plan and a flat ceiling: plan modes coupled by soft walls, heights exact.
//
// Along the height the field is separable, with exact complex modes between floor and ceiling; on the plan the rigid-wall
// modes φ are coupled by each wall's admittance β: (Λ + jk Σ β_w ∮_w φφᵀ + q_z − k²) c = φ(source).

import { type Admittance, axisModes, axisShapes } from '../acoustics/field/axisModes.ts';
import type { Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point2, Point3 } from '../acoustics/point.ts';
import { signedArea_m2 } from '../acoustics/polygon.ts';
import { factorComplex } from './complexSolve.ts';
import { lowestModes } from './lowestModes.ts';
import { elements, locate, planMatrices, shapes, wallProducts_m } from './planElements.ts';
import { meshPlan } from './planMesh.ts';

/** Admittances at one frequency. `walls[i]` is the wall from corner i to the next. */
export interface PrismSurfaces {
  readonly walls: readonly Admittance[];
  readonly floor: Admittance;
  readonly ceiling: Admittance;
}

export interface PrismField {
  readonly frequency_hz: readonly number[];
  /**
   * Makes receivers ready (by reciprocity the systems are solved from their side), so that a source may move under the hand.
   * @returns from a source: Pa·s/m³ by receiver and frequency, e^{+jωt}
   */
  readonly listenAt: (
    receivers: readonly Point3[],
  ) => (source: Point3) => { readonly re: Float64Array; readonly im: Float64Array }[];
}

/** Modes to this many times the highest frequency are coupled; above, to twice as far, they are summed uncoupled. */
const COUPLED_BEYOND = 1.4;
const SUMMED_BEYOND = 1.6;
/** Elements a wavelength at the coupled limit. */
const ELEMENTS_A_WAVELENGTH = 5;

/**
 * @param surfacesAt admittances at a frequency (Hz)
 * @param frequency_hz ascending, > 0
 * @throws RangeError on a plan that crosses itself
 */
export function preparePrismField(
  plan: readonly Point2[],
  height_m: number,
  surfacesAt: (frequency_hz: number) => PrismSurfaces,
  medium: Medium,
  frequency_hz: readonly number[],
): PrismField {
  const c = medium.speedOfSound_m_s;
  const top_hz = frequency_hz[frequency_hz.length - 1] ?? 200;
  const mesh = meshPlan(plan, c / (top_hz * COUPLED_BEYOND) / ELEMENTS_A_WAVELENGTH);
  const { stiffness, mass } = planMatrices(mesh);
  const limit = ((2 * Math.PI * top_hz * SUMMED_BEYOND) / c) ** 2;
  const area_m2 = Math.abs(signedArea_m2(plan));
  const pairs = lowestModes(
    stiffness,
    mass,
    limit,
    Math.ceil((limit * area_m2) / (4 * Math.PI)) + 12,
  );
  const count = pairs.value.length;
  const coupledLimit = ((2 * Math.PI * top_hz * COUPLED_BEYOND) / c) ** 2;
  const coupled = pairs.value.filter((value) => value <= coupledLimit).length;
  const couplings = plan.map((_, wall) => wallProducts_m(mesh, wall, pairs.vector));
  const list = elements(mesh);
  const onPlan = (at: Point2): Float64Array => {
    const { element, place } = locate(mesh, list, at);
    const values = shapes(place);
    return Float64Array.from(pairs.vector, (field) =>
      values.reduce((sum, value, i) => sum + value * (field[element.nodes[i] ?? 0] ?? 0), 0),
    );
  };
  const heights = Math.ceil((2 * top_hz * SUMMED_BEYOND * height_m) / c) + 1;

  return {
    frequency_hz,
    listenAt: (receivers) => {
      const ears = receivers.map((at) => ({ plan: onPlan(at), z_m: at.z_m }));
      const slices = frequency_hz.map((f_hz) => {
        const k = (2 * Math.PI * f_hz) / c;
        const surfaces = surfacesAt(f_hz);
        const up = axisModes(
          { length_m: height_m, walls: [surfaces.floor, surfaces.ceiling] },
          k,
          heights,
        );
        const system = wallSystem(couplings, surfaces.walls, k, count);
        /** Plan coefficients by receiver, then height mode: interleaved, with the height's shape at the ear and norm in. */
        const heard = ears.map(() => new Float64Array(2 * count * heights));
        const shape = ears.map(({ z_m }) => {
          const out = new Float64Array(2 * heights);
          axisShapes(up, z_m, out);
          return out;
        });
        for (let l = 0; l < heights; l++) {
          const solve = planSolver(
            pairs.value,
            system,
            coupled,
            (up.qRe[l] ?? 0) - k * k,
            up.qIm[l] ?? 0,
          );
          ears.forEach(({ plan: atEar }, r) => {
            const solved = solve(atEar);
            scaleInto(
              heard[r] as Float64Array,
              l * 2 * count,
              solved,
              shape[r]?.[2 * l] ?? 0,
              shape[r]?.[2 * l + 1] ?? 0,
              up.normRe[l] ?? 1,
              up.normIm[l] ?? 0,
            );
          });
        }
        return { up, heard, scale: 2 * Math.PI * f_hz * medium.density_kg_m3 };
      });
      return (source) => {
        const there = onPlan(source);
        const out = receivers.map(() => ({
          re: new Float64Array(frequency_hz.length),
          im: new Float64Array(frequency_hz.length),
        }));
        const shape = new Float64Array(2 * heights);
        slices.forEach(({ up, heard, scale }, f) => {
          axisShapes(up, source.z_m, shape);
          out.forEach((transfer, r) => {
            const part = heard[r] as Float64Array;
            let re = 0;
            let im = 0;
            for (let l = 0; l < heights; l++) {
              let lRe = 0;
              let lIm = 0;
              const base = l * 2 * count;
              for (let i = 0; i < count; i++) {
                const value = there[i] as number;
                lRe += value * (part[base + 2 * i] as number);
                lIm += value * (part[base + 2 * i + 1] as number);
              }
              const sRe = shape[2 * l] as number;
              const sIm = shape[2 * l + 1] as number;
              re += lRe * sRe - lIm * sIm;
              im += lRe * sIm + lIm * sRe;
            }
            transfer.re[f] = -scale * im;
            transfer.im[f] = scale * re;
          });
        });
        return out;
      };
    },
  };
}

/** jk Σ β_w ∮_w φφᵀ, interleaved. */
function wallSystem(
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
function planSolver(
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

/** into[at …] = from × (re + j im) / (normRe + j normIm). */
function scaleInto(
  into: Float64Array,
  at: number,
  from: Float64Array,
  re: number,
  im: number,
  normRe: number,
  normIm: number,
): void {
  const size = normRe * normRe + normIm * normIm;
  const sRe = (re * normRe + im * normIm) / size;
  const sIm = (im * normRe - re * normIm) / size;
  for (let i = 0; i < from.length; i += 2) {
    const fRe = from[i] as number;
    const fIm = from[i + 1] as number;
    into[at + i] = fRe * sRe - fIm * sIm;
    into[at + i + 1] = fRe * sIm + fIm * sRe;
  }
}
