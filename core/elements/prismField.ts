// The low-frequency field of a room with any plan and a flat ceiling: plan modes coupled by soft walls, heights exact.
//
// Along the height the field is separable, with exact complex modes between floor and ceiling; on the plan the rigid-wall
// modes φ are coupled by each wall's admittance β: (Λ + jk Σ β_w ∮_w φφᵀ + q_z − k²) c = φ(source).

import {
  type Admittance,
  type AxisModes,
  axisModes,
  axisShapes,
} from '../acoustics/field/axisModes.ts';
import type { Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point2, Point3 } from '../acoustics/point.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import { type PlanModes, planModes } from './planModes.ts';
import { planSolver, wallSystem } from './prismSystem.ts';
import { type ModalParts, prismParts, type RigidModes, rigidModes } from './rigidModes.ts';

/** Admittances at one frequency. `walls[i]` is the wall from corner i to the next. */
export interface PrismSurfaces {
  readonly walls: readonly Admittance[];
  readonly floor: Admittance;
  readonly ceiling: Admittance;
}

export interface PrismField {
  readonly frequency_hz: readonly number[];
  /** Single modes up to the highest frequency. */
  readonly modes: () => RigidModes;
  /** All modes that take part, with what each depends on. */
  readonly parts: () => ModalParts;
  /**
   * Makes receivers ready (by reciprocity the systems are solved from their side), so that a source may move under the hand.
   * @returns from a source: Pa·s/m³ by receiver and frequency, e^{+jωt}
   */
  readonly listenAt: (
    receivers: readonly Point3[],
  ) => (source: Point3) => { readonly re: Float64Array; readonly im: Float64Array }[];
  /** Makes many places ready, to be read from any source at any one frequency up to the highest; by place. */
  readonly over: (places: readonly Point3[]) => OverPlaces;
}

/** @returns Pa·s/m³ by place, e^{+jωt} */
export type OverPlaces = (
  source: Point3,
  frequency_hz: number,
) => { readonly re: Float64Array; readonly im: Float64Array };

/** Modes to this many times the highest frequency take part. */
const SUMMED_BEYOND = 1.6;
/** At each frequency those are coupled that lie below this many times it and some more; the others are summed by the diagonal. */
const COUPLED_BEYOND = 1.3;
const COUPLED_MORE_HZ = 25;
/** Elements a wavelength at 1.4 times the highest frequency. */
const MESHED_BEYOND = 1.4;
const ELEMENTS_A_WAVELENGTH = 5;

/**
 * @param surfacesAt admittances at a frequency (Hz)
 * @param frequency_hz ascending, > 0
 * @throws RangeError on a plan that no mesh fits
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
  const modes = planModes(
    plan,
    c / (top_hz * MESHED_BEYOND) / ELEMENTS_A_WAVELENGTH,
    ((2 * Math.PI * top_hz * SUMMED_BEYOND) / c) ** 2,
  );
  const heights = Math.ceil((2 * top_hz * SUMMED_BEYOND * height_m) / c) + 1;
  const room = { modes, height_m, heights, surfacesAt, medium };
  let known: ModalParts | null = null;
  const parts = () => {
    known ??= prismParts(modes, height_m, area_m2(plan), c, top_hz * MESHED_BEYOND);
    return known;
  };
  return {
    frequency_hz,
    modes: () => rigidModes(parts(), c, top_hz),
    parts,
    listenAt: (receivers) => {
      const ears = receivers.map((at) => ({ plan: modes.at(at), z_m: at.z_m }));
      const slices = frequency_hz.map((f_hz) => prepareSlice(room, f_hz, ears));
      return (source) => transfers(slices, modes.at(source), source.z_m, receivers.length);
    },
    over: (places) => {
      const onPlan = places.map((place) => modes.at(place));
      // By reciprocity: one receiver at the source, and every place a source.
      return (source, f_hz) => {
        const ear = { plan: modes.at(source), z_m: source.z_m };
        return readPlaces(prepareSlice(room, f_hz, [ear]), places, onPlan);
      };
    },
  };
}

function readPlaces(
  { up, heard: [part = new Float64Array(0)], scale }: Slice,
  places: readonly Point3[],
  onPlan: readonly Float64Array[],
): { readonly re: Float64Array; readonly im: Float64Array } {
  const re = new Float64Array(places.length);
  const im = new Float64Array(places.length);
  const shape = new Float64Array(2 * up.count);
  let level: Float64Array = new Float64Array(0);
  let z_m = Number.NaN;
  places.forEach((place, at) => {
    const there = onPlan[at] as Float64Array;
    // Places of a grid share their height, and with it the sum along it.
    if (place.z_m !== z_m) {
      z_m = place.z_m;
      axisShapes(up, z_m, shape);
      level = atHeight(part, shape, there.length);
    }
    let [sumRe, sumIm] = [0, 0];
    for (let i = 0; i < there.length; i++) {
      sumRe += (there[i] as number) * (level[2 * i] as number);
      sumIm += (there[i] as number) * (level[2 * i + 1] as number);
    }
    re[at] = -scale * sumIm;
    im[at] = scale * sumRe;
  });
  return { re, im };
}

/** Plan coefficients at one height, interleaved. */
function atHeight(part: Float64Array, shape: Float64Array, count: number): Float64Array {
  const level = new Float64Array(2 * count);
  for (let l = 0; l < shape.length / 2; l++) {
    const sRe = shape[2 * l] as number;
    const sIm = shape[2 * l + 1] as number;
    for (let i = 0; i < count; i++) {
      const re = part[2 * (l * count + i)] as number;
      const im = part[2 * (l * count + i) + 1] as number;
      level[2 * i] = (level[2 * i] as number) + re * sRe - im * sIm;
      level[2 * i + 1] = (level[2 * i + 1] as number) + re * sIm + im * sRe;
    }
  }
  return level;
}

interface PrismRoom {
  readonly modes: PlanModes;
  readonly height_m: number;
  /** How many modes up the height take part. */
  readonly heights: number;
  readonly surfacesAt: (frequency_hz: number) => PrismSurfaces;
  readonly medium: Medium;
}

interface Ear {
  readonly plan: Float64Array;
  readonly z_m: number;
}

interface Slice {
  readonly up: AxisModes;
  /** By receiver: plan coefficients by height mode, interleaved, with the height's shape at the ear and norm in. */
  readonly heard: readonly Float64Array[];
  readonly scale: number;
}

/** One frequency: the coupled systems, solved from the receivers' side. */
function prepareSlice(
  { modes, height_m, heights, surfacesAt, medium }: PrismRoom,
  f_hz: number,
  ears: readonly Ear[],
): Slice {
  const count = modes.value.length;
  const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
  const surfaces = surfacesAt(f_hz);
  const up = axisModes(
    { length_m: height_m, walls: [surfaces.floor, surfaces.ceiling] },
    k,
    heights,
  );
  const system = wallSystem(modes.couplings, surfaces.walls, k, count);
  const limit = ((k / f_hz) * (f_hz * COUPLED_BEYOND + COUPLED_MORE_HZ)) ** 2;
  const heard = ears.map(() => new Float64Array(2 * count * heights));
  const shape = ears.map(({ z_m }) => {
    const out = new Float64Array(2 * heights);
    axisShapes(up, z_m, out);
    return out;
  });
  for (let l = 0; l < heights; l++) {
    const qRe = up.qRe[l] ?? 0;
    const coupled = modes.value.filter((value) => value + qRe <= limit).length;
    const solve = planSolver(modes.value, system, coupled, qRe - k * k, up.qIm[l] ?? 0);
    ears.forEach(({ plan }, r) => {
      scaleInto(
        heard[r] as Float64Array,
        l * 2 * count,
        solve(plan),
        shape[r]?.[2 * l] ?? 0,
        shape[r]?.[2 * l + 1] ?? 0,
        up.normRe[l] ?? 1,
        up.normIm[l] ?? 0,
      );
    });
  }
  return { up, heard, scale: 2 * Math.PI * f_hz * medium.density_kg_m3 };
}

function transfers(
  slices: readonly Slice[],
  there: Float64Array,
  z_m: number,
  receiverCount: number,
): { readonly re: Float64Array; readonly im: Float64Array }[] {
  const out = Array.from({ length: receiverCount }, () => ({
    re: new Float64Array(slices.length),
    im: new Float64Array(slices.length),
  }));
  const count = there.length;
  slices.forEach(({ up, heard, scale }, f) => {
    const shape = new Float64Array(2 * up.count);
    axisShapes(up, z_m, shape);
    out.forEach((transfer, r) => {
      const part = heard[r] as Float64Array;
      let re = 0;
      let im = 0;
      for (let l = 0; l < up.count; l++) {
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
