// A response file of gear as the acoustics take it: on the common grid, re its pass band, continued beyond what the file covers.
//
// Where the file has no phase, it is the least that the level asks for (minimum phase): right for a loudspeaker's lower end, which
// is a high-pass of its own, and for filters without delay; wrong by whatever delay a device adds, which its latency tells.

import type { GearResponse } from '../../schema/model/gear.ts';
import { SAMPLES, sampleGrid_hz } from '../acoustics/sampledResponse.ts';
import { createFourier } from './fourier.ts';
import { minimumPhase_rad } from './minimumPhase.ts';
import { LEAST_SLOPE_DB_OCT, MOST_SLOPE_DB_OCT, rollOffs, SIX_DB } from './rollOffs.ts';

/** As a file holds it; frequencies ascend, each once. */
export interface FileResponse {
  readonly frequencies_hz: Float64Array;
  readonly levels_db: Float64Array;
  readonly phase_rad: Float64Array | null;
}

export interface GearResponseReading {
  readonly response: GearResponse;
  /** By how much the file's phase falls beyond the least, as a delay; null where it has no phase. */
  readonly excessDelay_s: number | null;
}

/** `natural`: a loudspeaker's own. `change`: what a switch adds to it. */
export type ResponseMeaning = 'natural' | 'change';

/** Fewer octaves than this within the grid say nothing. */
const LEAST_OCTAVES = 1;
/** A loudspeaker's pass band is judged here where the file reaches it, else over its loudest octave. Common practice, no source. */
const PASS_BAND_HZ = [200, 800] as const;
const GRID_HZ = sampleGrid_hz();

/** @returns null where the file covers less than an octave of the low end */
export function gearResponse(
  file: FileResponse,
  meaning: ResponseMeaning,
): GearResponseReading | null {
  const first = file.frequencies_hz[0] ?? 0;
  const last = file.frequencies_hz[file.frequencies_hz.length - 1] ?? 0;
  const from = Math.max(0, Math.ceil(indexOf(first) - 1e-6));
  const to = Math.min(SAMPLES.count - 1, Math.floor(indexOf(last) + 1e-6));
  if (to - from < LEAST_OCTAVES * SAMPLES.anOctave) return null;
  const read = levelsOnGrid(file, from, to);
  const pass_db = meaning === 'natural' ? passBand_db(read, from, to) : 0;
  const inside = read.map((level) => level - pass_db);
  const level_db = continued(inside, from, to, meaning);
  const least_rad = leastPhase_rad(level_db, meaning);
  const told_rad = file.phase_rad && phaseOnGrid(file, file.phase_rad, from, to);
  const phase_rad = told_rad ? joined(told_rad, least_rad, from, to) : least_rad;
  const ends = meaning === 'natural' ? rollOffs(inside, from, to) : { low: null, high: null };
  return {
    response: {
      level_db: Array.from(level_db, (value) => rounded(value, 100)),
      phase_rad: Array.from(phase_rad, (value) => rounded(value, 10_000)),
      phaseFrom: told_rad ? 'file' : 'minimum',
      known_hz: [rounded(Math.max(first, GRID_HZ[0] ?? 0), 100), rounded(GRID_HZ[to] ?? 0, 100)],
      ...ends,
    },
    excessDelay_s: told_rad && delayBetween_s(told_rad, least_rad, inside, from, to),
  };
}

function indexOf(frequency_hz: number): number {
  return SAMPLES.anOctave * Math.log2(frequency_hz / SAMPLES.from_hz);
}

/** Mean power over a step of the grid where the file is finer, straight lines over octaves where it is coarser. */
function levelsOnGrid(file: FileResponse, from: number, to: number): Float64Array {
  const { frequencies_hz: f_hz, levels_db } = file;
  const half = 2 ** (0.5 / SAMPLES.anOctave);
  return GRID_HZ.map((centre_hz, i) => {
    if (i < from || to < i) return 0;
    let power = 0;
    let count = 0;
    for (let at = firstFrom(f_hz, centre_hz / half); at < f_hz.length; at++) {
      if (centre_hz * half <= (f_hz[at] as number)) break;
      power += 10 ** ((levels_db[at] as number) / 10);
      count++;
    }
    return 1 < count ? 10 * Math.log10(power / count) : straight(f_hz, levels_db, centre_hz);
  });
}

function phaseOnGrid(
  { frequencies_hz }: FileResponse,
  phase_rad: Float64Array,
  from: number,
  to: number,
): Float64Array {
  const turn = 2 * Math.PI;
  const unwrapped = phase_rad.slice();
  for (let i = 1; i < unwrapped.length; i++) {
    const step = (unwrapped[i] as number) - (unwrapped[i - 1] as number);
    unwrapped[i] = (unwrapped[i] as number) - turn * Math.round(step / turn);
  }
  const onGrid = GRID_HZ.map((f_hz, i) =>
    i < from || to < i ? 0 : straight(frequencies_hz, unwrapped, f_hz),
  );
  // Whole turns mean nothing: near 0 at the upper end, where a loudspeaker's lower end has settled.
  const whole = turn * Math.round((onGrid[to] ?? 0) / turn);
  return onGrid.map((value) => value - whole);
}

/** A straight line over octaves between the neighbours. */
function straight(f_hz: Float64Array, values: Float64Array, at_hz: number): number {
  const high = Math.min(f_hz.length - 1, Math.max(1, firstFrom(f_hz, at_hz)));
  const [a_hz, b_hz] = [f_hz[high - 1] as number, f_hz[high] as number];
  const share = Math.min(1, Math.max(0, Math.log(at_hz / a_hz) / Math.log(b_hz / a_hz)));
  const here = values[high - 1] as number;
  return here + share * ((values[high] as number) - here);
}

/** Index of the first frequency that is not below a limit: bisection. */
function firstFrom(f_hz: Float64Array, limit_hz: number): number {
  let [low, high] = [0, f_hz.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((f_hz[middle] as number) < limit_hz) low = middle + 1;
    else high = middle;
  }
  return low;
}

function passBand_db(level_db: Float64Array, from: number, to: number): number {
  const octave = SAMPLES.anOctave;
  const starts = Array.from({ length: to - from - octave + 1 }, (_, i) => from + i);
  const loudest = Math.max(
    ...starts.map((start) => mean(level_db.subarray(start, start + octave + 1))),
  );
  const usual = level_db.filter((_, i) => {
    const f_hz = GRID_HZ[i] ?? 0;
    return from <= i && i <= to && PASS_BAND_HZ[0] <= f_hz && f_hz <= PASS_BAND_HZ[1];
  });
  const reaches = octave / 2 <= usual.length;
  // A subwoofer's file may go on far above where it plays.
  return reaches && loudest - SIX_DB < mean(usual) ? mean(usual) : loudest;
}

function mean(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Beyond the file a loudspeaker goes on falling as it falls at its ends; what a switch does stays as it is there. */
function continued(
  inside: Float64Array,
  from: number,
  to: number,
  meaning: ResponseMeaning,
): Float64Array {
  const third = SAMPLES.anOctave / 3;
  const [low, high] = [inside[from] as number, inside[to] as number];
  const clamp = (slope: number, atLeast: number) =>
    meaning === 'change' ? 0 : Math.min(MOST_SLOPE_DB_OCT, Math.max(atLeast, slope));
  const rise = clamp(3 * ((inside[from + third] as number) - low), LEAST_SLOPE_DB_OCT);
  const fall = clamp(3 * ((inside[to - third] as number) - high), 0);
  return inside.map((level, i) => {
    if (i < from) return low - (rise * (from - i)) / SAMPLES.anOctave;
    return to < i ? high - (fall * (i - to)) / SAMPLES.anOctave : level;
  });
}

/**
 * Bins fine enough for the lowest step of the grid, and to three times its top: four times as many change no phase below 200 Hz by
 * more than 0.002 rad, and would keep an editor waiting.
 */
const BIN_HZ = 0.5;
const BINS = 8192;

function leastPhase_rad(level_db: Float64Array, meaning: ResponseMeaning): Float64Array {
  const fourier = createFourier(2 * BINS);
  const spectrum = new Float64Array(2 * BINS + 2);
  for (let k = 0; k <= BINS; k++) spectrum[2 * k] = 10 ** (onLine(level_db, k * BIN_HZ) / 20);
  const top_hz = GRID_HZ[GRID_HZ.length - 1] ?? 0;
  // What a switch does is known everywhere: held level beyond its ends.
  const known =
    meaning === 'natural'
      ? { from_hz: SAMPLES.from_hz, to_hz: top_hz }
      : { from_hz: 0, to_hz: BINS * BIN_HZ };
  const phase = minimumPhase_rad(fourier, spectrum, BIN_HZ, known);
  return GRID_HZ.map((f_hz) => {
    const place = f_hz / BIN_HZ;
    const low = Math.floor(place);
    const here = phase[low] as number;
    return here + (place - low) * ((phase[low + 1] as number) - here);
  });
}

function onLine(level_db: Float64Array, frequency_hz: number): number {
  const last = level_db.length - 1;
  const place = Math.min(last, Math.max(0, indexOf(Math.max(frequency_hz, 1e-3))));
  const low = Math.min(last - 1, Math.floor(place));
  const here = level_db[low] as number;
  return here + (place - low) * ((level_db[low + 1] as number) - here);
}

/** The file's phase where it has one, and on both sides of it as the least phase goes on. */
function joined(
  told_rad: Float64Array,
  least_rad: Float64Array,
  from: number,
  to: number,
): Float64Array {
  return told_rad.map((value, i) => {
    const edge = Math.min(to, Math.max(from, i));
    return edge === i
      ? value
      : (told_rad[edge] as number) + (least_rad[i] as number) - (least_rad[edge] as number);
  });
}

/** Slope of the difference over angular frequency where the response has level: least squares with an offset. */
function delayBetween_s(
  told_rad: Float64Array,
  least_rad: Float64Array,
  level_db: Float64Array,
  from: number,
  to: number,
): number {
  let [count, sumX, sumY, sumXX, sumXY] = [0, 0, 0, 0, 0];
  for (let i = from; i <= to; i++) {
    if ((level_db[i] as number) < -SIX_DB) continue;
    const x = 2 * Math.PI * (GRID_HZ[i] as number);
    const y = (told_rad[i] as number) - (least_rad[i] as number);
    count++;
    sumX += x;
    sumY += y;
    sumXX += x * x;
    sumXY += x * y;
  }
  const spread = count * sumXX - sumX * sumX;
  return 0 < spread ? -(count * sumXY - sumX * sumY) / spread : 0;
}

/** Never minus zero, which JSON does not keep. */
function rounded(value: number, perUnit: number): number {
  return Math.round(value * perUnit) / perUnit + 0;
}
