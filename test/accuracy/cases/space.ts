// Distances, reflections, boundaries and layout held against hand-worked geometry and published tables.
import { flight_s } from '../../../core/acoustics/arrival.ts';
import { boundaryPower_db, solidAngleGain_db } from '../../../core/acoustics/boundaryPower.ts';
import { ceilingThrough, levelCeiling, volume_m3 } from '../../../core/acoustics/ceiling.ts';
import { boxImages } from '../../../core/acoustics/imageSources.ts';
import { baseAngle_rad, bearing } from '../../../core/acoustics/layoutAngles.ts';
import { area_m2, type Plan, perimeter_m, signedArea_m2 } from '../../../core/acoustics/polygon.ts';
import {
  comb,
  notch_hz,
  notchDepth_db,
  peakHeight_db,
  quarterWave_hz,
} from '../../../core/acoustics/reflection.ts';
import { type Comparison, type Pair, pairsOf } from '../comparison.ts';

const C_M_S = 343;
const DEGREE_RAD = Math.PI / 180;

/** Rows: x/λ; plane, edge, corner with all distances equal. */
const WATERHOUSE = [
  [0, 3.01, 6.02, 9.03],
  [0.1, 2.45, 4.86, 7.24],
  [0.2, 0.91, 1.32, 0.6],
  [0.25, 0, -1.06, -6.74],
  [0.3, -0.74, -2.71, -9.53],
  [0.5, 0, 0.24, 0.34],
] as const;

function waterhouse(wavelengths: number, wallCount: number): number {
  return boundaryPower_db(Array(wallCount).fill(wavelengths), C_M_S, C_M_S);
}

function minimum(wallCount: number): { readonly at: number; readonly level_db: number } {
  let best = { at: 0, level_db: Number.POSITIVE_INFINITY };
  for (let at = 0.2; at < 0.45; at += 0.0005) {
    const level_db = waterhouse(at, wallCount);
    if (level_db < best.level_db) best = { at, level_db };
  }
  return best;
}

/** A source and a seat whose six reflections are Pythagorean triangles or sums of whole numbers. */
const BOX = { x_m: 8, y_m: 9, z_m: 5 };
const SOURCE_AT = { x_m: 3, y_m: 1, z_m: 1.5 };
const SEAT = { x_m: 3, y_m: 5, z_m: 1.5 };

/** An L: 6 × 5 m less 2 × 3 m, by hand 24 m² and 22 m round. */
const L_PLAN: Plan = [
  { x_m: 0, y_m: 0 },
  { x_m: 6, y_m: 0 },
  { x_m: 6, y_m: 2 },
  { x_m: 4, y_m: 2 },
  { x_m: 4, y_m: 5 },
  { x_m: 0, y_m: 5 },
];

function volumes(): readonly Pair[] {
  const slope = ceilingThrough(
    { x_m: 0, y_m: 0, z_m: 2 },
    { x_m: 6, y_m: 0, z_m: 2 },
    { x_m: 0, y_m: 5, z_m: 3 },
  );
  const shed: Plan = [
    { x_m: 0, y_m: 0 },
    { x_m: 6, y_m: 0 },
    { x_m: 6, y_m: 5 },
    { x_m: 0, y_m: 5 },
  ];
  const triangle: Plan = shed.slice(0, 3);
  return [
    { what: 'L, 3 m high', actual: volume_m3(L_PLAN, levelCeiling(3)), expected: 72 },
    { what: 'shed 2 to 3 m', actual: slope ? volume_m3(shed, slope) : Number.NaN, expected: 75 },
    // ∫∫ 2 + y/5 over the triangle (0,0) (6,0) (6,5): 15 m² × (2 + 1/3)
    { what: 'triangle', actual: slope ? volume_m3(triangle, slope) : Number.NaN, expected: 35 },
  ];
}

export const spaceCases: readonly Comparison[] = [
  {
    computation: 'time of flight',
    source: 'd/c worked by hand: 1 m 2.915 ms, 1 cm 29.2 µs, 34.3 mm 0.1 ms at 343 m/s',
    unit: 'ms',
    tolerance: 5.1e-4,
    because: 'three decimals',
    count: 3,
    pairs: () =>
      pairsOf(
        [1, 0.01, 0.0343].map((path_m) => 1000 * flight_s(path_m, C_M_S)),
        [2.915, 0.0292, 0.1],
        (i) => `row ${i}`,
      ),
  },
  {
    computation: 'quarter-wave notch of a wall',
    source: 'c/(4d) at 343 m/s, eight distances worked by hand',
    unit: 'Hz',
    tolerance: 0.0501,
    because: 'one decimal',
    count: 8,
    pairs: () => {
      const walls_m = [0.3, 0.5, 0.6, 0.8, 1, 1.2, 1.5, 2];
      return pairsOf(
        walls_m.map((wall_m) => quarterWave_hz(wall_m, C_M_S)),
        [285.8, 171.5, 142.9, 107.2, 85.8, 71.5, 57.2, 42.9],
        (i) => `${walls_m[i]} m`,
      );
    },
  },
  {
    computation: 'notch and peak of one reflection',
    source: 'published table of comb depths: reflection at −3, −6, −10, −20 dB',
    unit: 'dB',
    tolerance: 0.0501,
    because: 'the print has one and two decimals',
    count: 8,
    pairs: () => {
      const levels = [-3, -6, -10, -20];
      const gain = (level_db: number) => 10 ** (level_db / 20);
      return [
        ...pairsOf(
          levels.map((level_db) => peakHeight_db(gain(level_db))),
          [4.65, 3.53, 2.39, 0.83],
          (i) => `peak at ${levels[i]} dB`,
        ),
        ...pairsOf(
          levels.map((level_db) => notchDepth_db(gain(level_db))),
          [-10.69, -6.04, -3.3, -0.92],
          (i) => `notch at ${levels[i]} dB`,
        ),
      ];
    },
  },
  {
    computation: 'first reflections of a box',
    source: 'worked by hand: source and seat 4 m apart, walls at whole distances',
    unit: 'm',
    tolerance: 1e-12,
    because: 'exact triangles',
    count: 6,
    pairs: () =>
      pairsOf(
        boxImages(BOX, SOURCE_AT, SEAT).map(({ reflected_m }) => reflected_m),
        // x: √(4² + 6²), √(4² + 10²); y: 1 + 5, 8 + 4; z: √(4² + 3²) = 5, √(4² + 7²)
        [Math.sqrt(52), Math.sqrt(116), 6, 12, 5, Math.sqrt(65)],
        (i) => `surface ${i}`,
      ),
  },
  {
    computation: 'comb of a floor reflection',
    source: 'worked by hand: 4 m direct, 5 m reflected, hard: f = 171.5 Hz, g = 0.8',
    unit: 'Hz, dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 5,
    pairs: () => {
      const floor = comb(4, 5, C_M_S, 1);
      return [
        { what: 'first notch', actual: floor.firstNotch_hz, expected: 171.5 },
        { what: 'first peak', actual: floor.firstPeak_hz, expected: 343 },
        { what: 'second notch', actual: notch_hz(1, C_M_S, 1), expected: 514.5 },
        { what: 'notch', actual: floor.notch_db, expected: -13.98 },
        { what: 'peak', actual: floor.peak_db, expected: 5.11 },
      ];
    },
  },
  {
    computation: 'power of a source near walls',
    source: 'Waterhouse, J. Acoust. Soc. Am. 30 (1958) 4: table worked by another program',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 18,
    pairs: () =>
      WATERHOUSE.flatMap(([wavelengths, ...levels]) =>
        pairsOf(
          [1, 2, 3].map((wallCount) => waterhouse(wavelengths, wallCount)),
          levels,
          (i) => `${i + 1} walls at ${wavelengths} λ`,
        ),
      ),
  },
  {
    computation: 'least power of a source near walls',
    source: 'Waterhouse 1958: depth and place of the minimum (plane, edge, corner)',
    unit: 'dB, λ',
    tolerance: 0.0061,
    because: 'two and three decimals',
    count: 6,
    pairs: () => [
      ...pairsOf(
        [1, 2, 3].map((n) => minimum(n).level_db),
        [-1.06, -2.86, -11.37],
        (i) => `${i + 1} walls, depth`,
      ),
      ...pairsOf(
        [1, 2, 3].map((n) => minimum(n).at),
        [0.358, 0.319, 0.281],
        (i) => `${i + 1} walls, place`,
      ),
    ],
  },
  {
    computation: 'solid-angle gain',
    source: 'half, quarter, eighth space: Allison, J. Audio Eng. Soc. 22 (1974)',
    unit: 'dB',
    tolerance: 0.0051,
    because: 'two decimals',
    count: 4,
    pairs: () =>
      pairsOf(
        ([0, 1, 2, 3] as const).map(solidAngleGain_db),
        [0, 3.01, 6.02, 9.03],
        (i) => `${i} walls`,
      ),
  },
  {
    computation: 'azimuth and elevation from a seat',
    source:
      'ITU-R BS.775-3 and BS.2051 directions, positions worked by hand on a 2 m circle and sphere',
    unit: '°',
    tolerance: 1e-9,
    because: 'exact',
    count: 9,
    pairs: () => {
      const seat = { x_m: 2.5, y_m: 3, z_m: 1.2 };
      const half = Math.sqrt(3);
      const left = { x_m: 1.5, y_m: 3 - half, z_m: 1.2 };
      const right = { x_m: 3.5, y_m: 3 - half, z_m: 1.2 };
      const azimuth = (x_m: number, y_m: number) =>
        bearing(seat, { x_m, y_m, z_m: 1.2 }).azimuth_rad / DEGREE_RAD;
      const upper = bearing(seat, { x_m: 2.5 - half / 2, y_m: 1.5, z_m: 2.2 });
      return [
        { what: 'left', actual: azimuth(1.5, 3 - half), expected: 30 },
        { what: 'right', actual: azimuth(3.5, 3 - half), expected: -30 },
        { what: 'centre', actual: azimuth(2.5, 1), expected: 0 },
        { what: 'left side', actual: azimuth(0.5, 3), expected: 90 },
        { what: 'left rear at 120', actual: azimuth(2.5 - half, 4), expected: 120 },
        { what: 'right rear at 135', actual: azimuth(4, 4.5), expected: -135 },
        { what: 'base angle', actual: baseAngle_rad(seat, left, right) / DEGREE_RAD, expected: 60 },
        { what: 'upper, elevation', actual: upper.elevation_rad / DEGREE_RAD, expected: 30 },
        { what: 'upper, azimuth', actual: upper.azimuth_rad / DEGREE_RAD, expected: 30 },
      ];
    },
  },
  {
    computation: 'area, perimeter and volume of plans',
    source: 'worked by hand: an L, a shed roof, a triangle under a slope',
    unit: 'm², m, m³',
    tolerance: 1e-12,
    because: 'exact',
    count: 6,
    pairs: () => [
      { what: 'L area', actual: area_m2(L_PLAN), expected: 24 },
      { what: 'L reversed', actual: signedArea_m2([...L_PLAN].reverse()), expected: -24 },
      { what: 'L perimeter', actual: perimeter_m(L_PLAN), expected: 22 },
      ...volumes(),
    ],
  },
];
