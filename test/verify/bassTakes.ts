// Takes of the bass made of levels that another method came to, in a room file written for the test: no gear, no filters, noise of a seed.

import type { MeasuredDecay, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { MeasuringSession } from '../../schema/model/sessions.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';
import { resolvedText } from '../support/resolvedText.ts';
import { worked } from '../support/worked.ts';
import { hissOf } from '../synthesis/measure.ts';

/** Levels re the free field at 1 m, from one source to one place. */
export interface Truth {
  readonly source: string;
  readonly seat: string;
  /** Ascending. */
  readonly frequency_hz: readonly number[];
  readonly level_db: readonly number[];
  readonly octaves?: readonly MeasuredDecay[];
}

/** Of each take's levels, on a grid of 24 points an octave. */
const NOISE_DB = 0.3;
const GRID_HZ = Array.from({ length: 24 * 4 }, (_, i) => 18 * 2 ** (i / 24));

/** The fit works its own fields out; of the Setup's it asks how high it goes, and whether levels are absolute. */
const NO_FIELD: NonNullable<Setup['field']> = {
  frequency_hz: [15, 300],
  method: 'box',
  schroeder_hz: null,
  damping: { from: 'measured', assumed: [] },
  level: { kind: 'matched', input_dbfs: -20, level_dbspl: 80 },
  seats: [],
  polarity: [],
  spread: [],
  modes: null,
  boundaries: [],
  uncertainty: null,
  notes: [],
};

/** A room file with its takes as an analysis would show them. */
export function roomWithTakes(text: string, truths: readonly Truth[], seed: number): Setup {
  const { room, codes } = resolvedText(text);
  if (room.space.shape === null) throw new Error(codes.join(', '));
  const plain = worked({ ...room, sessions: [sessionOf(truths)] });
  const next = hissOf(seed);
  const takes = truths.map((truth) => takeOf(truth, next));
  const session = { session: 'made', path: ['sessions', 'made'], date: null, averages: [] };
  return { ...plain, field: NO_FIELD, measured: { sessions: [{ ...session, takes }], notes: [] } };
}

function idOf({ source, seat }: Truth): string {
  return `${source}_${seat}`;
}

function sessionOf(truths: readonly Truth[]): MeasuringSession {
  return {
    id: 'made',
    path: ['sessions', 'made'],
    date: '2026-11-03',
    by: null,
    setup: null,
    temperature_k: null,
    microphone: null,
    interface: null,
    averages: [],
    takes: truths.map((truth) => ({
      id: idOf(truth),
      path: ['sessions', 'made', 'takes', idOf(truth)],
      file: `${idOf(truth)}.wav`,
      drive: null,
      sounding: [truth.source],
      seat: truth.seat,
      at: null,
      bypassed: [],
      changed: [],
      timing: 'none',
    })),
  };
}

function takeOf(truth: Truth, next: () => number): MeasuredTake {
  const half = 2 ** (1 / 12);
  const [from_hz = 0, to_hz = 0] = [truth.frequency_hz[0], truth.frequency_hz.at(-1)];
  const frequency_hz = GRID_HZ.filter((f_hz) => from_hz * half <= f_hz && f_hz <= to_hz / half);
  return {
    take: idOf(truth),
    path: ['sessions', 'made', 'takes', idOf(truth)],
    drive: null,
    sounding: [truth.source],
    seat: truth.seat,
    at: null,
    ...EMPTY_TAKE,
    kind: 'impulse',
    response: {
      frequency_hz,
      level_db: frequency_hz.map((f_hz) => smoothed_db(truth, f_hz) - 20 + NOISE_DB * next()),
      phase_rad: null,
      phaseFrom: null,
      smoothing: 6,
    },
    octaves: truth.octaves ?? [],
  };
}

/** Mean power over a sixth of an octave, even over the logarithm of frequency. */
function smoothed_db({ frequency_hz, level_db }: Truth, middle_hz: number): number {
  let [sum, count] = [0, 0];
  for (let i = -8; i <= 8; i++) {
    const f_hz = middle_hz * 2 ** (i / 96);
    const above = frequency_hz.findIndex((one) => f_hz <= one);
    const [low_hz, high_hz] = [frequency_hz[above - 1], frequency_hz[above]];
    if (low_hz === undefined || high_hz === undefined) continue;
    const share = (f_hz - low_hz) / (high_hz - low_hz);
    const [low, high] = [level_db[above - 1] ?? 0, level_db[above] ?? 0];
    sum += 10 ** (low / 10) * (1 - share) + 10 ** (high / 10) * share;
    count++;
  }
  return 10 * Math.log10(sum / count);
}

/** From pressure per volume velocity: of a source that would play evenly in the open. */
export function truthOf(
  source: string,
  seat: string,
  frequency_hz: readonly number[],
  pressure: { readonly re: readonly number[]; readonly im: readonly number[] },
  density_kg_m3: number,
): Truth {
  return {
    source,
    seat,
    frequency_hz,
    // |p| r = f ρ |Q| / 2 in the open.
    level_db: frequency_hz.map(
      (f_hz, i) =>
        20 *
        Math.log10(
          (2 * Math.hypot(pressure.re[i] ?? 0, pressure.im[i] ?? 0)) / (f_hz * density_kg_m3),
        ),
    ),
  };
}

/** A room of which a test says where it ends, what its file leaves open, and how long it rings. */
export interface MadeRoom {
  /** Corners of the plan; a box where it has no `heights_m` and four corners. */
  readonly plan_m: readonly (readonly number[])[];
  readonly isBox: boolean;
  /** Mean height at the front and at the back. */
  readonly heights_m: readonly [front: number, back: number];
  /** Half of what is open of width, depth and height. */
  readonly open_m: readonly number[];
  /** null where the file has surfaces alone. */
  readonly decay_s: number | null;
  /** Of every surface. */
  readonly absorption: number;
  readonly speedOfSound_m_s: number;
  readonly seats: Readonly<Record<string, readonly number[]>>;
  readonly sources: Readonly<Record<string, readonly number[]>>;
}

export function extentsOf({ plan_m, heights_m: [front_m, back_m] }: MadeRoom): readonly number[] {
  const most = (axis: number) => Math.max(...plan_m.map((corner) => corner[axis] ?? 0));
  return [most(0), most(1), (front_m + back_m) / 2];
}

/** 6.91 V/(c Σ β S) for the same β everywhere: as oblique modes decay (Kuttruff, Room Acoustics, chapter 3). */
export function decayTimeOf_s(room: MadeRoom, beta: number): number {
  const { plan_m, heights_m, speedOfSound_m_s: c } = room;
  let [floor_m2, walls_m2] = [0, 0];
  const [front_m, back_m] = heights_m;
  const depth_m = extentsOf(room)[1] ?? 1;
  const height_m = ([, y = 0]: readonly number[]) => front_m + ((back_m - front_m) * y) / depth_m;
  let moment_m3 = 0;
  plan_m.forEach((from, i) => {
    const to = plan_m[(i + 1) % plan_m.length] ?? from;
    const [[x0 = 0, y0 = 0], [x1 = 0, y1 = 0]] = [from, to];
    const cross = (x0 * y1 - x1 * y0) / 2;
    floor_m2 += cross;
    moment_m3 += (cross * (y0 + y1)) / 3;
    walls_m2 += (Math.hypot(x1 - x0, y1 - y0) * (height_m(from) + height_m(to))) / 2;
  });
  const volume_m3 = floor_m2 * height_m([0, moment_m3 / floor_m2]);
  const ceiling_m2 = floor_m2 * Math.hypot(1, (back_m - front_m) / depth_m);
  return (3 * Math.LN10 * volume_m3) / (c * beta * (floor_m2 + ceiling_m2 + walls_m2));
}

/** The file, its sides less by so much than the room's. */
export function roomText(room: MadeRoom, less_m: readonly number[]): string {
  const extents = extentsOf(room);
  const by = extents.map((extent, axis) => (extent - (less_m[axis] ?? 0)) / extent);
  const half = room.open_m.map((open) => ` ± ${Math.round(open * 1000)} mm`);
  const metres = (value: number, axis: number) => `${(value * (by[axis] ?? 1)).toFixed(4)} m`;
  const corner = (value: number, axis: number) =>
    `${metres(value, axis)}${value === extents[axis] ? half[axis] : ''}`;
  const [front_m, back_m] = room.heights_m;
  const names = room.isBox
    ? ['front', 'right', 'back', 'left']
    : room.plan_m.map((_, i) => `wall_${i}`);
  const shape = room.isBox
    ? `size: { width: ${corner(extents[0] ?? 0, 0)}, depth: ${corner(extents[1] ?? 0, 1)}, height: ${metres(front_m, 2)}${half[2]} }`
    : `plan:\n${room.plan_m
        .map(([x = 0, y = 0], i) => `    wall_${i}: { x: ${corner(x, 0)}, y: ${corner(y, 1)} }`)
        .join('\n')}\n  ${
        front_m === back_m
          ? `height: ${metres(front_m, 2)}${half[2]}`
          : `ceiling: { front: ${metres(front_m, 2)}, back: ${metres(back_m, 2)}${half[2]} }`
      }`;
  const a = room.absorption.toFixed(4);
  const point = ([x, y, z]: readonly number[]) => `{ x: ${x} m, y: ${y} m, z: ${z} m }`;
  return `room: 1
name: Made for a test
space:
  ${shape}
  air: { speed_of_sound: ${room.speedOfSound_m_s} m/s }
  surfaces:
${['floor', 'ceiling', ...names].map((name) => `    ${name}: { absorption: { 63 Hz: ${a}, 125 Hz: ${a}, 250 Hz: ${a}, 500 Hz: ${a} } }`).join('\n')}
${room.decay_s === null ? '' : `  decay_time: { ${['63 Hz', '125 Hz', '250 Hz'].map((band) => `${band}: ${room.decay_s?.toFixed(4)} s`).join(', ')} }`}
seats:
${Object.entries(room.seats)
  .map(([id, at], i) => `  ${id}: { at: ${point(at)}${i === 0 ? ', role: reference' : ''} }`)
  .join('\n')}
subwoofers:
${Object.entries(room.sources)
  .map(([id, at]) => `  ${id}: { at: ${point(at)} }`)
  .join('\n')}
`;
}

/** Soft edges of a third of an octave about the octave's own, half down there. */
function inOctave(frequency_hz: number, band_hz: number): number {
  const octaves = Math.abs(Math.log2(Math.max(frequency_hz, 1) / band_hz));
  return Math.cos((Math.PI / 2) * Math.min(1, Math.max(0, (octaves - 1 / 3) * 3)));
}

/**
 * T20 of an octave of a pressure that is known at every hertz: a sum of cosines, squares summed backwards, a line from −5 to −25 dB.
 *
 * @source ISO 3382-1 (backward integration), ISO 3382-2 (T20); written for this test alone
 */
export function t20Of_s(
  frequency_hz: readonly number[],
  { re, im }: { readonly re: readonly number[]; readonly im: readonly number[] },
  band_hz: number,
): number {
  const rate_hz = 800;
  const lines = frequency_hz.flatMap((f_hz, i) => {
    // Of a source whose volume acceleration is the same at all frequencies.
    const weight = inOctave(f_hz, band_hz) / f_hz;
    return weight === 0 ? [] : [{ f_hz, re: weight * (re[i] ?? 0), im: weight * (im[i] ?? 0) }];
  });
  let left = 0;
  const energy = Array.from({ length: 0.9 * rate_hz }, (_, i) => {
    const turn = (2 * Math.PI * i) / rate_hz;
    const sample = lines.reduce(
      (sum, line) =>
        sum + line.re * Math.cos(turn * line.f_hz) - line.im * Math.sin(turn * line.f_hz),
      0,
    );
    return sample * sample;
  })
    .toReversed()
    .map((square) => {
      left += square;
      return left;
    })
    .toReversed();
  const whole = energy[0] ?? 1;
  const points = energy.flatMap((one, i) => {
    const level_db = 10 * Math.log10(one / whole);
    return -25 <= level_db && level_db <= -5 ? [{ at_s: i / rate_hz, level_db }] : [];
  });
  const mean = (of: (point: (typeof points)[number]) => number) =>
    points.reduce((sum, point) => sum + of(point), 0) / points.length;
  const [at_s, level_db] = [mean((one) => one.at_s), mean((one) => one.level_db)];
  const slope =
    mean((one) => (one.at_s - at_s) * (one.level_db - level_db)) /
    mean((one) => (one.at_s - at_s) ** 2);
  return -60 / slope;
}
