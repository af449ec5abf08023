// The truth behind the measurements of the mix room Heron: invented, typed from its plan by hand, levels worked out on paper.

import {
  allPass1,
  butterworth2Low,
  butterworth4High,
  chain,
  linkwitzRiley4,
  plain,
} from './electronics.ts';
import { admittanceFor, type ImageRoom, type Triple } from './imageRoom.ts';
import type { Sounding } from './measure.ts';

export type SourceName = 'left' | 'right' | 'sub';

/** What may be otherwise than planned. */
export interface HeronTruth {
  readonly size_m: Triple;
  readonly temperature_k: number;
  readonly at: Readonly<Record<SourceName, Triple>>;
  /** Out of which loudspeaker's place a channel comes. */
  readonly playsAt: Readonly<Record<SourceName, SourceName>>;
  readonly inverted: Readonly<Record<SourceName, boolean>>;
  readonly delay_s: Readonly<Record<SourceName, number>>;
  readonly level_db: Readonly<Record<SourceName, number>>;
}

export const SEATS: Readonly<Record<'mix' | 'producer', Triple>> = {
  mix: [2.31, 2.44, 1.22],
  producer: [2.31, 3.9, 1.22],
};

export const HERON: HeronTruth = {
  size_m: [4.62, 6.18, 2.94],
  temperature_k: 295.15,
  at: { left: [1.26, 0.62, 1.22], right: [3.36, 0.62, 1.22], sub: [1.75, 0.62, 0.25] },
  playsAt: { left: 'left', right: 'right', sub: 'sub' },
  inverted: { left: false, right: false, sub: true },
  delay_s: { left: 0, right: 0, sub: 0.001 },
  level_db: { left: -6, right: -6, sub: -3.25 },
};

/** By octave band from 31.5 Hz; as the file has them, and on to 8 kHz. */
const DECAY_S = [0.42, 0.42, 0.31, 0.27, 0.26, 0.25, 0.24, 0.22, 0.2];
/** Left, right, front, back, floor, ceiling: gypsum on studs three times, more at the back, little on the floor. A guess of our own. */
const WEIGHTS = [1, 1, 1, 1.6, 0.15, 1];

/** 331.3 √(T/273.15) m/s (ideal gas). */
export function heronRoom({ size_m, temperature_k }: HeronTruth): ImageRoom {
  const speedOfSound_m_s = 331.3 * Math.sqrt(temperature_k / 273.15);
  // The walls are what they are, however warm it is.
  return {
    size_m,
    speedOfSound_m_s,
    admittance: admittanceFor(HERON.size_m, 344.4, DECAY_S, WEIGHTS),
  };
}

/**
 * Levels at 1 m in full space for −20 dBFS. Mains: peak 110 dB, 3 dB less as RMS, 18 dBu in and out, −20 dB: 87 dB. Subwoofer: peak
 * 116 dB on a floor, so 6 dB less, 3 dB less as RMS, −20 dB, −6 dB of its bus: 81 dB.
 */
const FULL_DB = { left: 87, right: 87, sub: 80.97 } as const;
/** Latencies: the loudspeakers' own 1.1 ms and 0.8 ms in the subwoofer's through outputs; 0.8 ms of the subwoofer. */
const LATENCY_S = { left: 0.0019, right: 0.0019, sub: 0.0008 } as const;
/** A fourth-order Butterworth is −6 dB at 0.872 of its −3 dB point: (fc/f)⁸ = 10^0.6 − 1. */
const MINUS_6 = 1 / 0.8723;
const CROSSOVER_HZ = 75;

export function heronSounding(truth: HeronTruth, name: SourceName): Sounding {
  const set = plain(
    FULL_DB[name] + truth.level_db[name],
    truth.inverted[name],
    LATENCY_S[name] + truth.delay_s[name],
  );
  const at = truth.at[truth.playsAt[name]];
  if (name !== 'sub')
    return {
      at,
      filter: chain(set, linkwitzRiley4(CROSSOVER_HZ, true), butterworth4High(48 * MINUS_6)),
    };
  return {
    at,
    bandCount: 5,
    filter: chain(
      set,
      linkwitzRiley4(CROSSOVER_HZ, false),
      // With the protection at 18 Hz, 1.1 dB down at 21 Hz, the box's own part has 4.9 dB left: (fc/21)⁸ = 10^0.49 − 1.
      butterworth4High(18),
      butterworth4High(23.03),
      // A second-order Butterworth is −6 dB at 1.316 of its −3 dB point.
      butterworth2Low(150 / 1.316),
      // 90° at 80 Hz.
      allPass1(80),
    ),
  };
}
