// The low-frequency field of a room under a sloped ceiling: its rigid-wall modes, coupled by the admittance of every surface.
//
//   (K + jk Σ β_s ∮_s φφᵀ − k² M) c = φ(receiver), p = jωρ φ(source)ᵀ c, e^{+jωt}
//
// over the modes up to a little above the highest frequency and, for each receiver, a few fields more: what all higher modes make
// near it, (K − sM)⁻¹ applied to it once, twice, … (a Krylov space), so that the sum of modes is not merely cut off.

import type { Admittance } from '../acoustics/field/axisModes.ts';
import type { Medium } from '../acoustics/field/boxTransfer.ts';
import type { Point3 } from '../acoustics/point.ts';
import { factorComplex } from './complexSolve.ts';
import type { OverPlaces, PrismField, PrismSurfaces } from './prismField.ts';
import { type ModalParts, rigidModes, slopedParts } from './rigidModes.ts';
import type { RoomGeometry } from './roomModes.ts';
import { type SlopedModes, slopedModes } from './slopedModes.ts';
import { type SurfaceProducts, surfaceProducts } from './slopedSurfaces.ts';
import { multiply } from './sparse.ts';
import { dot, scale, subtract } from './vectors.ts';

/** Modes to this many times the highest frequency take part. */
const MODES_BEYOND = 1.1;
/** Fields more for each receiver. */
const MORE_FIELDS = 3;
/** A field that the others hold already adds nothing but rounding. */
const NOTHING_NEW = 1e-6;

/**
 * @param surfacesAt admittances at a frequency (Hz)
 * @param frequency_hz ascending, > 0
 * @throws RangeError on a plan that no mesh fits or a ceiling that meets the floor
 * @source Grimme, Krylov projection methods for model reduction (1997): moments at a shift; modes besides are our own choice
 */
export function prepareSlopedField(
  geometry: RoomGeometry,
  surfacesAt: (frequency_hz: number) => PrismSurfaces,
  medium: Medium,
  frequency_hz: readonly number[],
): PrismField {
  const c = medium.speedOfSound_m_s;
  const top_hz = frequency_hz[frequency_hz.length - 1] ?? 150;
  const modes = slopedModes(geometry, c, top_hz * MODES_BEYOND);
  let known: ModalParts | null = null;
  const parts = () => {
    known ??= slopedParts(modes, surfaceProducts(geometry, modes), geometry.ceiling);
    return known;
  };
  return {
    frequency_hz,
    modes: () => rigidModes(parts(), c, top_hz),
    parts,
    over: (places) => overPlaces({ geometry, modes, surfacesAt, medium }, places),
    listenAt: (receivers) => {
      const readers = receivers.map((at) => modes.readerAt(at));
      const vector = [...modes.vector, ...moreFields(modes, readers)];
      const products = surfaceProducts(geometry, { ...modes, vector });
      const stiffness = projected(modes, vector);
      const ears = readers.map((reader) =>
        Float64Array.from(vector, (field) => dot(field, reader)),
      );
      const heard = frequency_hz.map((f_hz) => {
        const k = (2 * Math.PI * f_hz) / c;
        const system = systemAt(products, stiffness, surfacesAt(f_hz), k);
        return solved(system, ears);
      });
      return (source) => {
        const reader = modes.readerAt(source);
        const there = Float64Array.from(vector, (field) => dot(field, reader));
        return transfers(heard, there, frequency_hz, medium, receivers.length);
      };
    },
  };
}

interface SlopedRoom {
  readonly geometry: RoomGeometry;
  readonly modes: SlopedModes;
  readonly surfacesAt: (frequency_hz: number) => PrismSurfaces;
  readonly medium: Medium;
}

/** By reciprocity: one receiver at the source, and every place a source. */
function overPlaces(
  { geometry, modes, surfacesAt, medium }: SlopedRoom,
  places: readonly Point3[],
): OverPlaces {
  const shapes = places.map((place) => modes.shapesAt(place));
  const sources = new Map<string, ReturnType<typeof prepared>>();
  const prepared = (source: Point3) => {
    const reader = modes.readerAt(source);
    const more = moreFields(modes, [reader]);
    const vector = [...modes.vector, ...more];
    return {
      products: surfaceProducts(geometry, { ...modes, vector }),
      stiffness: projected(modes, vector),
      ear: Float64Array.from(vector, (field) => dot(field, reader)),
      rows: places.map((place, at) => [shapes[at] as Float64Array, modes.fieldsAt(more, place)]),
    };
  };
  return (source, f_hz) => {
    const key = JSON.stringify(source);
    const { products, stiffness, ear, rows } = sources.get(key) ?? prepared(source);
    if (!sources.has(key)) sources.set(key, { products, stiffness, ear, rows });
    const k = (2 * Math.PI * f_hz) / medium.speedOfSound_m_s;
    const [c = new Float64Array(0)] = solved(systemAt(products, stiffness, surfacesAt(f_hz), k), [
      ear,
    ]);
    const omegaRho = 2 * Math.PI * f_hz * medium.density_kg_m3;
    const re = new Float64Array(places.length);
    const im = new Float64Array(places.length);
    rows.forEach((parts, at) => {
      let [sumRe, sumIm, i] = [0, 0, 0];
      for (const part of parts)
        for (const value of part) {
          sumRe += value * (c[2 * i] as number);
          sumIm += value * (c[2 * i + 1] as number);
          i++;
        }
      re[at] = -omegaRho * sumIm;
      im[at] = omegaRho * sumRe;
    });
    return { re, im };
  };
}

/** M-orthonormal among themselves and to the modes. */
function moreFields(modes: SlopedModes, readers: readonly Float64Array[]): readonly Float64Array[] {
  const found: Float64Array[] = [];
  const image = new Float64Array(modes.stiffness.size);
  for (const reader of readers) {
    let field = reader.slice();
    for (let order = 0; order < MORE_FIELDS; order++) {
      modes.solve(field);
      // Twice, for rounding.
      for (let round = 0; round < 2; round++) {
        multiply(modes.mass, field, image);
        const parts = [...modes.vector, ...found].map(
          (other) => [other, dot(other, image)] as const,
        );
        for (const [other, part] of parts) subtract(field, part, other);
      }
      multiply(modes.mass, field, image);
      const size = Math.sqrt(Math.max(0, dot(field, image)));
      if (!(NOTHING_NEW < size)) break;
      scale(field, 1 / size);
      found.push(field);
      field = image.map((value) => value / size);
    }
  }
  return found;
}

/** vᵀ K v of all fields, row-major: the eigenvalues for the modes, full for the others. */
function projected(
  { stiffness, value }: SlopedModes,
  vector: readonly Float64Array[],
): Float64Array {
  const n = vector.length;
  const table = new Float64Array(n * n);
  const image = new Float64Array(stiffness.size);
  value.forEach((one, i) => {
    table[i * n + i] = one;
  });
  for (let i = value.length; i < n; i++) {
    multiply(stiffness, vector[i] as Float64Array, image);
    for (let j = value.length; j < n; j++) table[i * n + j] = dot(vector[j] as Float64Array, image);
  }
  return table;
}

/** K + jk Σ β_s ∮_s φφᵀ − k² M, interleaved. */
function systemAt(
  { walls, floor, ceiling }: SurfaceProducts,
  stiffness: Float64Array,
  at: PrismSurfaces,
  k: number,
): Float64Array {
  const n = Math.round(Math.sqrt(stiffness.length));
  const system = new Float64Array(2 * n * n);
  for (let i = 0; i < stiffness.length; i++)
    system[2 * i] = (stiffness[i] as number) - (i % (n + 1) === 0 ? k * k : 0);
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

/** Coefficients by receiver, interleaved: by reciprocity each receiver is solved for as if it were the source. */
function solved(system: Float64Array, ears: readonly Float64Array[]): Float64Array[] {
  const n = ears[0]?.length ?? 0;
  const solve = factorComplex(system, n);
  return ears.map((ear) => {
    const x = new Float64Array(2 * n);
    for (let i = 0; i < n; i++) x[2 * i] = ear[i] as number;
    solve(x);
    return x;
  });
}

function transfers(
  heard: readonly (readonly Float64Array[])[],
  there: Float64Array,
  frequency_hz: readonly number[],
  { density_kg_m3 }: Medium,
  receiverCount: number,
): { readonly re: Float64Array; readonly im: Float64Array }[] {
  return Array.from({ length: receiverCount }, (_, r) => {
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
      const omegaRho = 2 * Math.PI * (frequency_hz[f] ?? 0) * density_kg_m3;
      re[f] = -omegaRho * sumIm;
      im[f] = omegaRho * sumRe;
    });
    return { re, im };
  });
}
