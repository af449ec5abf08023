// Decays that takes show in the bass, against what the modes of a room and how each is damped make of them.

import { boxModes } from '../acoustics/boxModes.ts';
import { decayTime_s, modalDamping_per_s } from '../acoustics/modalDecay.ts';
import type { Point3 } from '../acoustics/point.ts';
import { loadOf, type ModalParts } from '../elements/rigidModes.ts';
import type { FieldContext } from '../field/context.ts';
import { boxAt, surfacesOf } from '../field/roomField.ts';
import type { MeasuredTake } from './measuredFigures.ts';
import type { PlannedTake } from './plan.ts';
import { BASS_BANDS_HZ } from './roomFromTakesFigures.ts';
import { octavesOf } from './sessionDecay.ts';

/** What the takes say of one octave. */
export interface BandDecays {
  readonly frequency_hz: number;
  readonly kind: 't20' | 'mode';
  readonly takes: readonly { readonly planned: PlannedTake; readonly time_s: number }[];
  /** Of the mean of the logarithms, one deviation. */
  readonly error_ratio: number;
}

/** What modes damped by the first order leave besides: our own figure. */
const MODEL_ERROR = 0.1;
/** Of a single ringing; two close modes are told as one. Our own figure. */
const RINGING_ERROR = 0.2;

/** T20 (or T30) by octave, or the strongest ringing where the octave is too narrow for a decay time. */
export function bandDecays(
  takes: readonly { readonly planned: PlannedTake; readonly measured: MeasuredTake }[],
  from_hz: number,
  to_hz: number,
): readonly BandDecays[] {
  return BASS_BANDS_HZ.flatMap((frequency_hz): readonly BandDecays[] => {
    if (frequency_hz / Math.SQRT2 < from_hz || to_hz < frequency_hz * Math.SQRT2) return [];
    const of = (pick: (one: MeasuredTake['octaves'][number]) => number | null) =>
      takes.flatMap(({ planned, measured }) => {
        const band = octavesOf(measured).find((one) => one.frequency_hz === frequency_hz);
        const time_s = band ? pick(band) : null;
        return time_s === null || !(0 < time_s) ? [] : [{ planned, time_s }];
      });
    const times = of(({ t20_s, t30_s }) => t20_s ?? t30_s);
    const ringings = of(({ t20_s, t30_s, modalDecay_s }) =>
      t20_s === null && t30_s === null ? modalDecay_s : null,
    );
    if (0 < times.length)
      return [
        {
          frequency_hz,
          kind: 't20',
          takes: times,
          error_ratio: Math.hypot(
            MODEL_ERROR,
            spread(frequency_hz, times) / Math.sqrt(times.length),
          ),
        },
      ];
    return ringings.length === 0
      ? []
      : [{ frequency_hz, kind: 'mode', takes: ringings, error_ratio: RINGING_ERROR }];
  });
}

/** Few modes beat against each other, which no mean of theirs knows. Our own figure. */
const BEATING = 2;

/** @source ISO 3382-2:2008, Eq. (2) (from memory), one position: σ/T = 0.88 √(1.19/(B T)), B = f/√2 of an octave */
function spread(frequency_hz: number, times: BandDecays['takes']): number {
  const mean_s = times.reduce((sum, { time_s }) => sum + time_s, 0) / times.length;
  return BEATING * 0.88 * Math.sqrt(1.19 / ((frequency_hz / Math.SQRT2) * mean_s));
}

/** Modes of a room with how each is damped, and their shapes at a place. */
export interface DampedModes {
  readonly frequency_hz: ArrayLike<number>;
  readonly damping_per_s: ArrayLike<number>;
  readonly shapesAt: (place: Point3) => ArrayLike<number>;
}

/** More are no matter of single modes. */
const MOST_MODES = 3000;
/** Upper edge of the highest octave. */
const MODES_TO_HZ = 355;

/** null where there are too many to sum. */
export function boxDampedModes({ fieldRoom }: FieldContext): DampedModes | null {
  const { box } = fieldRoom.shape;
  const c = fieldRoom.medium.speedOfSound_m_s;
  if (box === null || MOST_MODES < 4.2 * box.x_m * box.y_m * box.z_m * (MODES_TO_HZ / c) ** 3)
    return null;
  const modes = boxModes(box, c, MODES_TO_HZ);
  const cosine = (order: number, at_m: number, length_m: number) =>
    (order === 0 ? 1 : Math.SQRT2) * Math.cos((order * Math.PI * at_m) / length_m);
  return {
    frequency_hz: modes.map(({ frequency_hz }) => frequency_hz),
    damping_per_s: modes.map(({ frequency_hz, order }) => {
      const [x, y, z] = boxAt(fieldRoom, frequency_hz);
      return modalDamping_per_s(order, box, c, [
        x.walls[0].real,
        x.walls[1].real,
        y.walls[0].real,
        y.walls[1].real,
        z.walls[0].real,
        z.walls[1].real,
      ]);
    }),
    shapesAt: ({ x_m, y_m, z_m }) =>
      modes.map(
        ({ order: [nx, ny, nz] }) =>
          cosine(nx, x_m, box.x_m) * cosine(ny, y_m, box.y_m) * cosine(nz, z_m, box.z_m),
      ),
  };
}

/** @param parts of a mesh nearby: what a side's few centimetres do to decays is nothing */
export function meshDampedModes({ fieldRoom }: FieldContext, parts: ModalParts): DampedModes {
  const c = fieldRoom.medium.speedOfSound_m_s;
  const surfacesAt = surfacesOf(fieldRoom.surfaces);
  const frequency_hz = parts.value.map(
    (value) => (c / (2 * Math.PI)) * Math.sqrt(Math.max(0, value)),
  );
  return {
    frequency_hz,
    damping_per_s: frequency_hz.map((f_hz, i) =>
      f_hz < 1 ? 0 : (c / 2) * loadOf(parts.loads, surfacesAt(f_hz), i, ({ real }) => real),
    ),
    shapesAt: parts.shapesAt,
  };
}

/**
 * Mean over the takes of what is measured over what the modes make of it, logarithm over its error.
 *
 * @param frequency_hz of the drives' pressures
 * @returns null where no mode lies in the band
 */
export function decayOff(
  { kind, takes, error_ratio, frequency_hz: band_hz }: BandDecays,
  modes: DampedModes,
  frequency_hz: readonly number[],
): number | null {
  const inside = Array.from(modes.frequency_hz, (f_hz, i) => ({ f_hz, i })).filter(
    ({ f_hz, i }) =>
      band_hz / Math.SQRT2 <= f_hz &&
      f_hz <= band_hz * Math.SQRT2 &&
      0 < (modes.damping_per_s[i] ?? 0),
  );
  if (inside.length === 0) return null;
  const dampings = inside.map(({ i }) => modes.damping_per_s[i] ?? 1);
  const offs = takes.map(({ planned, time_s }) => {
    const energies = energiesOf(planned, modes, inside, frequency_hz);
    const expected_s =
      kind === 't20' ? t20Of_s(energies, dampings) : strongest_s(energies, dampings);
    return Math.log(time_s / expected_s);
  });
  return offs.reduce((sum, off) => sum + off, 0) / offs.length / error_ratio;
}

/** Energy with which each mode starts to decay at the microphone, phases between modes left out. */
function energiesOf(
  { drives, receiver }: PlannedTake,
  { shapesAt }: DampedModes,
  inside: readonly { readonly f_hz: number; readonly i: number }[],
  frequency_hz: readonly number[],
): readonly number[] {
  const there = shapesAt(receiver);
  const driven = drives.map(({ drive: { source, pressure_pa } }) => ({
    shapes: shapesAt(source.at),
    power: frequency_hz.map(
      (_, i) => (pressure_pa.re[i] ?? 0) ** 2 + (pressure_pa.im[i] ?? 0) ** 2,
    ),
  }));
  return inside.map(({ f_hz, i }) => {
    const at = firstFrom(frequency_hz, f_hz);
    const power = driven.reduce(
      (sum, one) => sum + (one.power[at] ?? 0) * (one.shapes[i] ?? 0) ** 2,
      0,
    );
    // A mode answers an impulse with sin(ωt)/ω.
    return (power * (there[i] ?? 0) ** 2) / f_hz ** 2;
  });
}

/** The first that is not less, else the last. */
function firstFrom(ascending: readonly number[], value: number): number {
  const above = ascending.findIndex((one) => value <= one);
  return above === -1 ? ascending.length - 1 : above;
}

/** From −5 to −25 dB of the energy that is still to come. @source ISO 3382-1 (backward integration), ISO 3382-2 (T20) */
function t20Of_s(energies: readonly number[], dampings: readonly number[]): number {
  const left = (time_s: number) =>
    energies.reduce((sum, energy, i) => {
      const damping = dampings[i] ?? 1;
      return sum + (energy / (2 * damping)) * Math.exp(-2 * damping * time_s);
    }, 0);
  const whole = left(0);
  const longest_s = decayTime_s(Math.min(...dampings));
  const fallen = (level_db: number) => {
    let [early, late] = [0, longest_s];
    for (let round = 0; round < 20; round++) {
      const middle = (early + late) / 2;
      if (10 * Math.log10(left(middle) / whole) < -level_db) late = middle;
      else early = middle;
    }
    return (early + late) / 2;
  };
  return 3 * (fallen(25) - fallen(5));
}

/** Of the modes that hold most energy, the mean of the logarithms by energy: which one a fit calls the strongest is not known. */
function strongest_s(energies: readonly number[], dampings: readonly number[]): number {
  let [sum, whole] = [0, 0];
  energies.forEach((energy, i) => {
    const held = (energy / (dampings[i] ?? 1)) ** 2;
    sum += held * Math.log(dampings[i] ?? 1);
    whole += held;
  });
  return decayTime_s(Math.exp(sum / whole));
}
