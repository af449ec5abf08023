// Decay times of a take per octave and third octave, each only where the take supports it.

import { bands, type FrequencyBand } from '../acoustics/thirdOctave.ts';
import { bandFilter, energyReversed } from './bandFilter.ts';
import { DECAY_RANGES, type DecayLine, decayCurve_db, decayLine } from './decay.ts';
import { halved } from './halved.ts';
import { kneeOf } from './knee.ts';

/** Why a decay time is not given. */
export type DecayRefusal = 'bandwidth-time' | 'noise' | 'no-decay';

export interface BandDecay {
  readonly band: FrequencyBand;
  readonly edt_s: number | null;
  readonly t20_s: number | null;
  readonly t30_s: number | null;
  /** Why T20 is not given; null where it is. */
  readonly refusal: DecayRefusal | null;
  /** Why T30 is not given; null where it is. */
  readonly t30Refusal: DecayRefusal | null;
  /** Peak of the band's decay over its noise; null where nothing decays. */
  readonly peakToNoise_db: number | null;
  /** 1 − r² of the line of T20, of T30. */
  readonly nonLinearity: { readonly t20_ratio: number | null; readonly t30_ratio: number | null };
  /** T30/T20 − 1. */
  readonly curvature_ratio: number | null;
  /** Where the decay meets the noise, after the arrival; null where nothing decays. */
  readonly knee_s: number | null;
  /** Standard deviation of T20, of T30, for one source and one microphone position. */
  readonly spread: { readonly t20_s: number | null; readonly t30_s: number | null };
  /** Bandwidth × T20, or × EDT where there is no T20. */
  readonly bandwidthTime_ratio: number | null;
}

/** @source ISO 3382-2 (from memory): B·T > 16 with forward filters; kept for reversed ones, for the sake of caution */
export const LEAST_BANDWIDTH_TIME = 16;
/** @source ISO 3382-2: noise at least 10 dB below the foot of the range: −25 − 10, −35 − 10 dB */
export const LEAST_FOR_T20_DB = 35;
export const LEAST_FOR_T30_DB = 45;

/** Nothing is read of a decay below the foot of T30. */
const DEEPEST_DB = DECAY_RANGES.t30[1] - 1;

/**
 * @param decay the impulse response from the arrival of the direct sound on
 * @param bandsPerOctaveCount 1 or 3
 * @param range lowest and highest nominal frequency
 */
export function bandDecays(
  decay: Float64Array,
  sampleRate_hz: number,
  bandsPerOctaveCount: 1 | 3,
  [from_hz, to_hz]: readonly [number, number],
): readonly BandDecay[] {
  const rates = createRates(decay, sampleRate_hz);
  return bands(bandsPerOctaveCount, from_hz, to_hz).flatMap((band) => {
    const { signal, rate_hz } = rates(band.upper_hz);
    const filter = bandFilter(band, rate_hz);
    if (filter === null) return [];
    const lead = Math.ceil((LEAD_RATIO * rate_hz) / (band.upper_hz - band.lower_hz));
    return [bandDecay(band, energyReversed(filter, signal, lead), rate_hz)];
  });
}

/**
 * After so many over its bandwidth a filter's ringing is 40 dB down: its slowest poles lose 13.6 dB in each. What the reversed filter rings
 * ahead of the sound is the sound's own, most of all of the direct sound's: it counts as arriving with the first sample. Without it a dry
 * room's decay would seem up to a tenth longer.
 */
const LEAD_RATIO = 3;

/** A band may reach up to this share of the rate it is filtered at. */
const HIGHEST_RATIO = 0.237;
/** Lower rates would tell moments of a decay no finer than a third of a millisecond. */
const LEAST_RATE_HZ = 2700;

interface Rated {
  readonly signal: Float64Array;
  readonly rate_hz: number;
}

/** A signal at the lowest rate that is enough for a frequency, each rate made once. */
function createRates(signal: Float64Array, sampleRate_hz: number): (upper_hz: number) => Rated {
  const made: Rated[] = [{ signal, rate_hz: sampleRate_hz }];
  const at = (index: number): Rated => {
    const known = made[index];
    if (known !== undefined) return known;
    const { signal: above, rate_hz } = at(index - 1);
    const next = { signal: halved(above), rate_hz: rate_hz / 2 };
    made[index] = next;
    return next;
  };
  return (upper_hz) => {
    const least_hz = Math.max(LEAST_RATE_HZ, upper_hz / HIGHEST_RATIO);
    return at(Math.max(0, Math.floor(Math.log2(sampleRate_hz / least_hz))));
  };
}

function bandDecay(band: FrequencyBand, energy: Float64Array, sampleRate_hz: number): BandDecay {
  const knee = kneeOf(energy, sampleRate_hz);
  if (knee === null) return nothing(band);
  const curve = decayCurve_db(energy, knee.kneeIndex, knee.tail_ratio, DEEPEST_DB);
  const line = (range: keyof typeof DECAY_RANGES) =>
    decayLine(curve, sampleRate_hz, DECAY_RANGES[range]);
  const edt = line('edt');
  const t20 = line('t20');
  const t30 = line('t30');
  const width_hz = band.upper_hz - band.lower_hz;
  const time_s = t20?.decayTime_s ?? edt?.decayTime_s ?? null;
  const product = time_s === null ? null : width_hz * time_s;
  const narrow = product !== null && product < LEAST_BANDWIDTH_TIME;
  const refusalOf = (one: DecayLine | null, least_db: number): DecayRefusal | null => {
    if (narrow) return 'bandwidth-time';
    if (knee.peakToNoise_db < least_db) return 'noise';
    return one === null ? 'no-decay' : null;
  };
  const refusal = refusalOf(t20, LEAST_FOR_T20_DB);
  const t30Refusal = refusalOf(t30, LEAST_FOR_T30_DB);
  const t20_s = refusal === null ? (t20?.decayTime_s ?? null) : null;
  const t30_s = t30Refusal === null ? (t30?.decayTime_s ?? null) : null;
  return {
    band,
    edt_s: narrow || knee.peakToNoise_db < 20 ? null : (edt?.decayTime_s ?? null),
    t20_s,
    t30_s,
    refusal,
    t30Refusal,
    peakToNoise_db: knee.peakToNoise_db,
    nonLinearity: {
      t20_ratio: t20_s === null ? null : (t20?.nonLinearity_ratio ?? null),
      t30_ratio: t30_s === null ? null : (t30?.nonLinearity_ratio ?? null),
    },
    curvature_ratio: t20_s === null || t30_s === null ? null : t30_s / t20_s - 1,
    knee_s: Math.min(knee.kneeIndex, energy.length) / sampleRate_hz,
    spread: {
      t20_s: t20_s === null ? null : spread_s(t20_s, width_hz, 0.88, 1.9),
      t30_s: t30_s === null ? null : spread_s(t30_s, width_hz, 0.55, 1.52),
    },
    bandwidthTime_ratio: product,
  };
}

/**
 * Standard deviation of a decay time by integrated impulse response, one position.
 *
 * @source ISO 3382-2:2008, Eq. (2) and (3) (from memory): σ = a T √((1 + b/n)/(N B T)), n = 10 for impulse responses, N = 1
 */
function spread_s(time_s: number, width_hz: number, a: number, b: number): number {
  return a * time_s * Math.sqrt((1 + b / 10) / (width_hz * time_s));
}

function nothing(band: FrequencyBand): BandDecay {
  return {
    band,
    edt_s: null,
    t20_s: null,
    t30_s: null,
    refusal: 'no-decay',
    t30Refusal: 'no-decay',
    peakToNoise_db: null,
    nonLinearity: { t20_ratio: null, t30_ratio: null },
    curvature_ratio: null,
    knee_s: null,
    spread: { t20_s: null, t30_s: null },
    bandwidthTime_ratio: null,
  };
}
