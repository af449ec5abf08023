// When a source arrives, and with which sign, from a response of levels and phases at any frequencies.

import { type FrequencyBand, thirdOctaves } from '../acoustics/thirdOctave.ts';
import { isBassSource, MOST_SCATTER_RAD, peakPolarity, slopePolarity } from './arrivalSign.ts';
import { heldAt_db, type LevelCurve, levelAt_db } from './correction.ts';
import { createFourier } from './fourier.ts';
import { minimumPhase_rad } from './minimumPhase.ts';
import { peakArrival } from './peakArrival.ts';
import { slopeArrival } from './slopeArrival.ts';
import { DEEPEST_HZ, KNOWN_RANGE_DB, type SourceBand, strongBand } from './sourceBand.ts';

export interface TextArrival {
  /** null where it is refused. */
  readonly arrival_s: number | null;
  readonly by: 'peak' | 'slope';
  readonly polarity: 'upright' | 'inverted' | 'undecided' | null;
  /** With the filters' own delay, of a bass source. */
  readonly withFilters_s: number | null;
  readonly refusal: TextArrivalRefusal | null;
  /** The narrowest step between frequencies in the source's band. */
  readonly spacing_hz: number;
}

/** `spacing`: the points lie too far apart; `no-peak`: the phases make no sound that begins. */
export type TextArrivalRefusal = 'spacing' | 'no-peak' | 'scatter';

export interface PhasedCurve extends LevelCurve {
  readonly phase_rad: Float64Array;
}

/** Arrivals are sought so late; a text whose points allow less than the other tells none. Common practice, no source: 34 m, 7 m. */
const LATEST_S = 0.1;
const LEAST_S = 0.02;
/** Before the moment of playing, where the times are not from there but from another loudspeaker. */
const EARLY_S = 0.002;
/** A direct sound stands so high above the mean of all that is found; of phases without order the highest is at four. */
const LEAST_CREST = 6;
const LEAST_CREST_BASS = 2.2;
const MOST_POINTS = 20_000;
/** The end of the response is faded out from this share of its last frequency. */
const FADE_RATIO = 0.8;

/**
 * By the response's sum over its points as an impulse response, whatever the steps between them: the peak of a full-range source;
 * of a bass source that peak only steadies the slope of its phase beyond minimum phase.
 *
 * An arrival at t turns the phase by 2π t Δf from point to point: beyond Δf t = ½ nobody can tell it from an earlier one.
 *
 * @param curve ascending; phases from the moment that times count from, e^{+jωt}
 * @param isRelative times may be negative: they count from another loudspeaker
 */
export function textArrival(
  curve: PhasedCurve,
  sourceBand: SourceBand,
  isRelative: boolean,
): TextArrival {
  const isBass = isBassSource(sourceBand);
  const by = isBass ? 'slope' : 'peak';
  const spacing_hz = narrowestIn(curve.frequencies_hz, sourceBand);
  const latest_s = Math.min(LATEST_S, 0.5 / spacing_hz);
  const refused = (refusal: TextArrivalRefusal): TextArrival => ({
    arrival_s: null,
    by,
    polarity: null,
    withFilters_s: null,
    refusal,
    spacing_hz,
  });
  if (!(LEAST_S <= latest_s)) return refused('spacing');
  const from_s = isRelative ? -latest_s : -EARLY_S;
  const { samples, rate_hz } = impulseOf(curve, sourceBand, from_s, latest_s);
  if (crestOf(samples) < (isBass ? LEAST_CREST_BASS : LEAST_CREST)) return refused('no-peak');
  const peak = peakArrival(samples, rate_hz);
  if (peak === null) return refused('no-peak');
  const peak_s = from_s + peak.arrival_s;
  if (!isBass)
    return {
      ...refused('no-peak'),
      refusal: null,
      arrival_s: peak_s,
      polarity: peakPolarity(peak),
    };
  return ofBass(curve, sourceBand, peak_s, refused);
}

function ofBass(
  curve: PhasedCurve,
  band: SourceBand,
  peak_s: number,
  refused: (refusal: TextArrivalRefusal) => TextArrival,
): TextArrival {
  const even = evenSpectrum(curve, band, peak_s);
  if (even === null) return refused('spacing');
  const { fourier, spectrum } = even;
  const least = minimumPhase_rad(fourier, spectrum, BIN_HZ, knownBand(curve));
  const slope = slopeArrival(spectrum, BIN_HZ, [band.from_hz, band.to_hz], peak_s, 0, least);
  if (slope === null) return refused('spacing');
  if (MOST_SCATTER_RAD < slope.scatter_rad) return refused('scatter');
  return {
    ...refused('scatter'),
    refusal: null,
    arrival_s: slope.arrival_s,
    withFilters_s: slope.groupDelay_s,
    polarity: slopePolarity(slope),
  };
}

function narrowestIn(frequencies_hz: Float64Array, { from_hz, to_hz }: SourceBand): number {
  let narrowest = Number.POSITIVE_INFINITY;
  for (let i = 1; i < frequencies_hz.length; i++) {
    const [below, above] = [frequencies_hz[i - 1] as number, frequencies_hz[i] as number];
    if (from_hz <= above && below <= to_hz) narrowest = Math.min(narrowest, above - below);
  }
  return narrowest;
}

/** h(t) = Σ |H| cos(φ + 2π f t) Δf: the integral over the frequencies as they are given. */
function impulseOf(
  { frequencies_hz, levels_db, phase_rad }: PhasedCurve,
  { to_hz }: SourceBand,
  from_s: number,
  to_s: number,
): { readonly samples: Float64Array; readonly rate_hz: number } {
  const last = frequencies_hz.length - 1;
  const end_hz = frequencies_hz[last] as number;
  const rate_hz = 2.5 * Math.min(end_hz, 4 * to_hz);
  const samples = new Float64Array(Math.ceil((to_s - from_s) * rate_hz));
  const highest_db = levels_db.reduce((most, level) => Math.max(most, level), -Infinity);
  const stride = Math.ceil(frequencies_hz.length / MOST_POINTS);
  for (let k = 0; k <= last; k += stride) {
    const f = frequencies_hz[k] as number;
    const width =
      (frequencies_hz[Math.min(last, k + stride)] as number) -
      (frequencies_hz[Math.max(0, k - stride)] as number);
    const share = Math.max(0, (f / Math.min(end_hz, rate_hz / 2) - FADE_RATIO) / (1 - FADE_RATIO));
    if (1 < share) break;
    const fade = 0.5 + 0.5 * Math.cos(Math.PI * share);
    const height = fade * width * 10 ** (((levels_db[k] as number) - highest_db) / 20);
    if (!Number.isFinite(height)) continue;
    addSine(
      samples,
      height,
      (phase_rad[k] as number) + 2 * Math.PI * f * from_s,
      (2 * Math.PI * f) / rate_hz,
    );
  }
  return { samples, rate_hz };
}

/** Adds a cosine by turning a pointer on. */
function addSine(samples: Float64Array, height: number, start_rad: number, step_rad: number): void {
  const [cos, sin] = [Math.cos(step_rad), Math.sin(step_rad)];
  let re = height * Math.cos(start_rad);
  let im = height * Math.sin(start_rad);
  for (let i = 0; i < samples.length; i++) {
    samples[i] = (samples[i] as number) + re;
    const next = re * cos - im * sin;
    im = re * sin + im * cos;
    re = next;
  }
}

function crestOf(samples: Float64Array): number {
  let squares = 0;
  let highest = 0;
  for (const value of samples) {
    squares += value * value;
    highest = Math.max(highest, Math.abs(value));
  }
  return squares === 0 ? 0 : highest / Math.sqrt(squares / samples.length);
}

const BIN_HZ = 0.5;
const BIN_COUNT = 2 ** 15;
/** From point to point, of a phase that the rough delay is taken from: more may be a turn that was missed. */
const MOST_STEP_RAD = 0.8 * Math.PI;

/** At even steps, delayed by no more than is left after the rough arrival; null where the phase turns too far from point to point. */
function evenSpectrum(curve: PhasedCurve, band: SourceBand, delay_s: number) {
  const { frequencies_hz, phase_rad } = curve;
  const unwrapped = new Float64Array(phase_rad.length);
  for (let i = 0; i < phase_rad.length; i++) {
    const f = frequencies_hz[i] as number;
    const turned = (phase_rad[i] as number) + 2 * Math.PI * f * delay_s;
    const before = i === 0 ? 0 : (unwrapped[i - 1] as number);
    const next = turned - 2 * Math.PI * Math.round((turned - before) / (2 * Math.PI));
    const isOwn = band.from_hz <= f && (frequencies_hz[i - 1] ?? f) <= band.to_hz;
    if (i !== 0 && isOwn && MOST_STEP_RAD < Math.abs(next - before)) return null;
    unwrapped[i] = next;
  }
  const phases: LevelCurve = { frequencies_hz, levels_db: unwrapped };
  const fourier = createFourier(2 * BIN_COUNT);
  const spectrum = new Float64Array(2 * BIN_COUNT + 2);
  for (let k = 1; k <= BIN_COUNT; k++) {
    const size = 10 ** (heldAt_db(curve, k * BIN_HZ) / 20);
    const angle = heldAt_db(phases, k * BIN_HZ);
    spectrum[2 * k] = size * Math.cos(angle);
    spectrum[2 * k + 1] = size * Math.sin(angle);
  }
  return { fourier, spectrum };
}

/** Within 40 dB of the strongest third octave, inside the text. */
function knownBand(curve: PhasedCurve): SourceBand {
  const first_hz = curve.frequencies_hz[0] as number;
  const last_hz = curve.frequencies_hz.at(-1) as number;
  const bands: readonly FrequencyBand[] = thirdOctaves(DEEPEST_HZ, 20_000).filter(
    ({ exact_hz }) => first_hz <= exact_hz && exact_hz <= last_hz,
  );
  if (bands.length === 0) return { from_hz: first_hz, to_hz: last_hz };
  const powers = Float64Array.from(
    bands,
    ({ exact_hz }) => 10 ** (levelAt_db(curve, exact_hz) / 10),
  );
  const near = strongBand(bands, powers, KNOWN_RANGE_DB);
  return { from_hz: Math.max(first_hz, near.from_hz), to_hz: Math.min(last_hz, near.to_hz) };
}
