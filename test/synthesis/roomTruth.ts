// The truth behind synthesised measurements of a stereo room with one subwoofer: its box, what stands where, what is really dialled in.

import {
  allPass1,
  butterworth2Low,
  butterworth4High,
  chain,
  linkwitzRiley4,
  plain,
} from './electronics.ts';
import { admittanceOf, type ImageRoom, type Triple } from './imageRoom.ts';
import type { Sounding } from './measure.ts';

export type SourceName = 'left' | 'right' | 'sub';

type Each<Value> = Readonly<Record<SourceName, Value>>;

export interface RoomTruth {
  readonly size_m: Triple;
  readonly temperature_k: number;
  /**
   * What each side absorbs of sound from everywhere, by octave band from 31.5 Hz to 8 kHz: left, right, front, back, floor, ceiling. Chosen
   * by itself, in round figures, and not by the room file: what the file says of decays is what these make of the room, read by a surveyor.
   */
  readonly absorption: readonly (readonly number[])[];
  readonly seats: Readonly<Record<string, Triple>>;
  readonly at: Each<Triple>;
  /** Out of which loudspeaker's place a signal comes. */
  readonly playsAt: Each<SourceName>;
  readonly inverted: Each<boolean>;
  readonly delay_s: Each<number>;
  readonly level_db: Each<number>;
  /** Levels at 1 m in full space for −20 dBFS with levels at 0 dB. */
  readonly full_db: Each<number>;
  readonly crossover_hz: number;
  /** Where the subwoofer's phase control lags by 90°; null at 0°. */
  readonly quarterTurn_hz: number | null;
}

/** 331.3 √(T/273.15) m/s (ideal gas). */
export function imageRoomOf({ size_m, temperature_k, absorption }: RoomTruth): ImageRoom {
  return {
    size_m,
    speedOfSound_m_s: 331.3 * Math.sqrt(temperature_k / 273.15),
    admittance: admittanceOf(absorption),
  };
}

/** Latencies: 1.1 ms of the mains and 0.8 ms of the outputs that they are fed through; 0.8 ms of the subwoofer. */
export const LATENCY_S: Each<number> = { left: 0.0019, right: 0.0019, sub: 0.0008 };
/** A fourth-order Butterworth is −6 dB at 0.872 of its −3 dB point: (fc/f)⁸ = 10^0.6 − 1. */
const MINUS_6 = 1 / 0.8723;

/** Mains of 48 Hz (vented), a subwoofer of 21 to 150 Hz with its protection at 18 Hz. */
export function soundingOf(truth: RoomTruth, name: SourceName): Sounding {
  const set = plain(
    truth.full_db[name] + truth.level_db[name],
    truth.inverted[name],
    LATENCY_S[name] + truth.delay_s[name],
  );
  const at = truth.at[truth.playsAt[name]];
  if (name !== 'sub')
    return {
      at,
      filter: chain(set, linkwitzRiley4(truth.crossover_hz, true), butterworth4High(48 * MINUS_6)),
    };
  return {
    at,
    bandCount: 5,
    filter: chain(
      set,
      linkwitzRiley4(truth.crossover_hz, false),
      // With the protection at 18 Hz, 1.1 dB down at 21 Hz, the box's own part has 4.9 dB left: (fc/21)⁸ = 10^0.49 − 1.
      butterworth4High(18),
      butterworth4High(23.03),
      // A second-order Butterworth is −6 dB at 1.316 of its −3 dB point.
      butterworth2Low(150 / 1.316),
      ...(truth.quarterTurn_hz === null ? [] : [allPass1(truth.quarterTurn_hz)]),
    ),
  };
}
