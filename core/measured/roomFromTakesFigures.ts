// What of a room may be fitted to takes, how far it is open beforehand, and which variant of the room each set of values means.
//
// Values in their order: the logarithm of how many times more is absorbed in each octave of `bands_hz`, what is added to width, depth and
// height, the logarithm of how many times faster sound is.

import type { Spectrum } from '../../schema/model/quantities.ts';
import type { Room } from '../../schema/model/room.ts';
import { ceilingArea_m2, volume_m3, wallAreas_m2 } from '../acoustics/ceiling.ts';
import { decayTime_s } from '../acoustics/modalDecay.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import { fieldContext } from '../field/context.ts';
import { SPEED_PER_K, uncertaintyOf } from '../field/uncertainty.ts';
import { type DecayTime, decayTimeAt_s, measuredDecayTime } from '../parts/decayTime.ts';
import type { AirFigures, Setup } from '../setup.ts';
import { openSides_m } from './roomFromTakesSides.ts';
import type { Variant } from './variant.ts';

/** Octave bands in which absorption may be fitted. */
export const BASS_BANDS_HZ: readonly number[] = [31.5, 63, 125, 250];
/** Above this nothing is fitted: the upper edge of the 250 Hz octave is 355 Hz, but a room's modes are told apart to 250 Hz or so. */
export const BASS_TO_HZ: number = 260;

export interface OpenFigures {
  readonly bands_hz: readonly number[];
  /** Decay times of oblique modes as the file has them, by band of `decay`. */
  readonly decay: DecayTime;
  /** Half of what is open of width, depth and height. */
  readonly open_m: readonly number[];
  /** One deviation of the speed of sound and of walls that give way: both move all modes alike. */
  readonly speedDeviation: number;
}

/** @param bands_hz those of `BASS_BANDS_HZ` of which the takes tell anything */
export function openFigures(
  { room, space, air }: Setup,
  sessionAir: AirFigures,
  bands_hz: readonly number[],
): OpenFigures | null {
  const bass = bassDecay(room, air);
  if (bass === null) return null;
  const { from, assumed } = bass.surfaces;
  const known = uncertaintyOf({ room, air: sessionAir, from, assumedCount: assumed.length });
  // Evenly likely within half widths a and b: deviations a/√3 and b/√3.
  const speedDeviation =
    Math.hypot(known.temperature_k * SPEED_PER_K, known.construction_ratio) / Math.sqrt(3);
  const stated = measuredDecayTime(room.space.decayTime_s);
  const upper = stated ?? space?.decayTime ?? null;
  const own = (upper?.bands ?? []).filter(
    ({ frequency_hz }) => stated !== null || BASS_TO_HZ < frequency_hz,
  );
  const known_hz = new Set(own.map(({ frequency_hz }) => frequency_hz));
  const added = bands_hz
    .filter((band_hz) => !known_hz.has(band_hz))
    .map((frequency_hz) => ({ frequency_hz, decayTime_s: bass.at_s(frequency_hz) }));
  const bands = [...own, ...added].toSorted((a, b) => a.frequency_hz - b.frequency_hz);
  return {
    bands_hz,
    decay: { decayTime_s: 0, from: 'measured', bands },
    open_m: openSides_m(room),
    speedDeviation,
  };
}

/** How an oblique mode decays as the file stands. @source as `fieldSurfaces`: δ = (c/V) Σ β S */
function bassDecay(room: Room, air: AirFigures) {
  const context = fieldContext({ room, air }, []);
  if (context === null) return null;
  const { shape, surfaces } = context.fieldRoom;
  const stated = measuredDecayTime(room.space.decayTime_s);
  const areas = [
    area_m2(shape.plan),
    ceilingArea_m2(shape.plan, shape.ceiling),
    ...wallAreas_m2(shape.plan, shape.ceiling),
  ];
  const at_s = (frequency_hz: number) => {
    if (stated !== null) return decayTimeAt_s(stated, frequency_hz);
    const absorbed_m2 = surfaces
      .at(frequency_hz)
      .reduce((sum, { real }, i) => sum + real * (areas[i] ?? 0), 0);
    return decayTime_s((air.speedOfSound_m_s * absorbed_m2) / volume_m3(shape.plan, shape.ceiling));
  };
  return { surfaces, at_s };
}

export function bandValues(
  { bands_hz }: OpenFigures,
  values: readonly number[],
): readonly number[] {
  return values.slice(0, bands_hz.length);
}

export function sideValues(
  { bands_hz }: OpenFigures,
  values: readonly number[],
): readonly [number, number, number] {
  const [x = 0, y = 0, z = 0] = values.slice(bands_hz.length, bands_hz.length + 3);
  return [x, y, z];
}

export function speedValue({ bands_hz }: OpenFigures, values: readonly number[]): number {
  return values[bands_hz.length + 3] ?? 0;
}

export function variantOf(open: OpenFigures, values: readonly number[]): Variant {
  // Where no octave is told, decay stays as the file has it.
  const bands = open.bands_hz.length === 0 ? [] : fittedBands(open, bandValues(open, values));
  const speed = speedValue(open, values);
  return {
    size_m: sideValues(open, values),
    ...(bands.length === 0 ? {} : { decayTime_s: spectrumOf(bands) }),
    ...(speed === 0 ? {} : { speed_ratio: Math.exp(speed) }),
  };
}

function spectrumOf(bands: DecayTime['bands']): Spectrum {
  return {
    frequency_hz: bands.map(({ frequency_hz }) => frequency_hz),
    value: bands.map(({ decayTime_s: time_s }) => time_s),
  };
}

/** The file's decay times with what absorbs in the bass multiplied: between the octaves straight over the logarithm of frequency. */
export function fittedBands(
  { bands_hz, decay }: OpenFigures,
  logs: readonly number[],
): DecayTime['bands'] {
  const last_hz = bands_hz.at(-1) ?? 0;
  return decay.bands.map(({ frequency_hz, decayTime_s: time_s }) => ({
    frequency_hz,
    decayTime_s:
      frequency_hz <= Math.min(BASS_TO_HZ, last_hz * Math.SQRT2)
        ? time_s / Math.exp(between(bands_hz, logs, frequency_hz))
        : time_s,
  }));
}

/** Level beyond the outermost. */
function between(at_hz: readonly number[], logs: readonly number[], f_hz: number): number {
  const above = at_hz.findIndex((one) => f_hz <= one);
  if (above === -1) return logs.at(-1) ?? 0;
  const [high_hz, high] = [at_hz[above] ?? f_hz, logs[above] ?? 0];
  const low_hz = at_hz[above - 1];
  if (low_hz === undefined) return high;
  const low = logs[above - 1] ?? 0;
  return low + ((high - low) * Math.log(f_hz / low_hz)) / Math.log(high_hz / low_hz);
}
