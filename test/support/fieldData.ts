// The stored references of forced fields and of modes, and what the tests and the accuracy report measure on them.
import { readFileSync } from 'node:fs';
import type { Box } from '../../core/acoustics/field/boxTransfer.ts';
import type { Point3 } from '../../core/acoustics/point.ts';

export type Triple = readonly [number, number, number];

export interface Response {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

export interface ForcedBox {
  readonly inputs: {
    readonly room_m: Triple;
    readonly beta_x0_xL_y0_yL_z0_zL: readonly number[];
    readonly source_m: Triple;
    readonly receivers_m: readonly Triple[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: { readonly p_exact: readonly Response[] };
}

export interface ForcedPlan {
  readonly inputs: {
    readonly plan_polygon_m: readonly (readonly [number, number])[];
    readonly height_m: number;
    readonly beta: number;
    readonly source_m: Triple;
    readonly receivers_m: readonly Triple[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: { readonly p: readonly Response[] };
}

export interface StoredModes {
  readonly inputs: {
    readonly c_m_s: number;
    readonly plan_polygon_m: readonly (readonly [number, number])[];
    readonly h0: number;
    readonly ax: number;
    readonly ay: number;
    readonly fmax_hz: number;
    readonly points_m: readonly Triple[];
  };
  readonly expected: {
    readonly f_hz: readonly number[];
    readonly modes: readonly {
      readonly mode_number: number;
      readonly f_hz: number;
      readonly abs_p_rms_normalised: readonly number[];
    }[];
  };
}

export interface ImageSums {
  readonly inputs: {
    readonly room_m: Triple;
    readonly source_m: Triple;
    readonly receivers_m: readonly Triple[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: Readonly<
    Record<
      'uniform' | 'per_wall',
      {
        readonly reflection_x0_xL_y0_yL_z0_zL: readonly number[];
        readonly p: readonly Response[];
        readonly first_arrivals: readonly {
          readonly t_ms: readonly number[];
          readonly amplitude: readonly number[];
        }[];
      }
    >
  >;
}

/** @param folder `field` or `elements` under `test/` */
export function fieldData<Data>(folder: 'field' | 'elements', name: string): Data {
  const url = new URL(`../${folder}/data/${name}.json`, import.meta.url);
  return JSON.parse(readFileSync(url, 'utf8')) as Data;
}

export function point([x_m, y_m, z_m]: Triple): Point3 {
  return { x_m, y_m, z_m };
}

export function boxOf({ inputs }: ForcedBox): Box {
  const wall = (i: number) => ({ real: inputs.beta_x0_xL_y0_yL_z0_zL[i] ?? 0, imaginary: 0 });
  const axis = (i: 0 | 1 | 2) => ({
    length_m: inputs.room_m[i],
    walls: [wall(2 * i), wall(2 * i + 1)] as const,
  });
  return [axis(0), axis(1), axis(2)];
}

export function level_db(re: number, im: number): number {
  return 20 * Math.log10(Math.hypot(re, im));
}

/** Deviations in dB at every frequency that is not in a dip deeper than `dip_db` below the median; all of them without it. */
export function deviations_db(
  got: { readonly re: ArrayLike<number>; readonly im: ArrayLike<number> },
  want: Response,
  dip_db = Number.POSITIVE_INFINITY,
): readonly number[] {
  const wanted_db = want.re.map((re, i) => level_db(re, want.im[i] ?? 0));
  const sorted = wanted_db.toSorted((a, b) => a - b);
  const median_db = sorted[Math.floor(sorted.length / 2)] ?? 0;
  return wanted_db.flatMap((level, i) =>
    level < median_db - dip_db
      ? []
      : [level_db(got.re[i] ?? Number.NaN, got.im[i] ?? Number.NaN) - level],
  );
}

export function rms(values: readonly number[]): number {
  return Math.sqrt(values.reduce((sum, value) => sum + value * value, 0) / values.length);
}
