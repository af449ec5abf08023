// Everything that one impulse response supports, worked out in one go.

import { wrapped_rad } from '../acoustics/complex.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { type FrequencyBand, thirdOctaves } from '../acoustics/thirdOctave.ts';
import { isBassSource, MOST_SCATTER_RAD, peakPolarity, slopePolarity } from './arrivalSign.ts';
import { type BandDecay, bandDecays } from './bandDecay.ts';
import type { Distortion } from './distortion.ts';
import { createFourier } from './fourier.ts';
import { minimumPhase_rad } from './minimumPhase.ts';
import { type PeakArrival, peakArrival } from './peakArrival.ts';
import { type RingingView, ringings, ringingView } from './ringing.ts';
import { type SlopeArrival, slopeArrival } from './slopeArrival.ts';
import { type BandPowers, bandPowersOf } from './smoothing.ts';
import {
  BELOW_STRONGEST_DB,
  DEEPEST_HZ,
  KNOWN_RANGE_DB,
  levelBand,
  type SourceBand,
  strongBand,
} from './sourceBand.ts';
import type {
  ArrivalFigures,
  BandFigures,
  BandSignalToNoise,
  LevelFigures,
  PolarityFigures,
  ResponseFigures,
  TakeFigures,
  TakeWarning,
} from './takeFigures.ts';
import { type ResponseWindow, soundStartIndex, windowEnergy_s, windowed } from './window.ts';

/** An impulse response and what its time axis means. */
export interface Impulse {
  readonly samples: Float64Array;
  readonly sampleRate_hz: number;
  /** Time of the first sample after playing began, or after the start of the file. */
  readonly start_s: number;
  /** Whether that time means anything: there was a timing reference. */
  readonly isTimed: boolean;
  readonly distortion?: Distortion;
}

export interface TakeOptions {
  /** n of 1/n octave. */
  readonly smoothingCount: number;
  readonly window: ResponseWindow;
}

/** Signal over noise that a response needs. @source the project's own rule: 20 dB errs by less than 1 dB */
export const LEAST_FOR_RESPONSE_DB = 20;
const HIGHEST_HZ = 20_000;
const LOWEST_HZ = 20;
const POINTS_PER_OCTAVE = 24;
/** Shorter silence tells no noise in the bass. */
const LEAST_NOISE_S = 0.1;
/** Wider spaced bins would not resolve a third octave at 20 Hz. */
const BIN_HZ = 0.5;

/** @returns null for a silent response */
export function takeFigures(impulse: Impulse, options: TakeOptions): TakeFigures | null {
  const { samples, sampleRate_hz } = impulse;
  const peak = peakArrival(samples, sampleRate_hz);
  if (peak === null) return null;
  const startIndex = soundStartIndex(samples, sampleRate_hz);
  const view = spectralView(impulse, startIndex, options.window);
  const { spectrum, least, binWidth_hz, before_s, sourceBand, signalToNoise } = view;
  const band = [sourceBand.from_hz, sourceBand.to_hz] as const;
  const slope = isBassSource(sourceBand)
    ? slopeArrival(spectrum, binWidth_hz, band, before_s, peak.arrival_s - before_s, least)
    : null;
  const arrival = arrivalOf(impulse, peak, slope);
  const decay = samples.subarray(startIndex);
  const ringing = ringingView(decay, sampleRate_hz);
  const bandFigures = (
    perOctave: 1 | 3,
    range: readonly [number, number],
  ): readonly BandFigures[] =>
    bandDecays(decay, sampleRate_hz, perOctave, range).map((one) => withRinging(one, ringing));
  const octaves = bandFigures(1, [31.5, 8000]);
  const response = responseOf(view, arrival.place_s - impulse.start_s - before_s, options);
  return {
    sampleRate_hz,
    sourceBand,
    arrival,
    polarity: polarityOf(peak, slope),
    level: levelOf(view.powersOf, sourceBand),
    response,
    signalToNoise,
    octaves,
    thirdOctaves: bandFigures(3, [25, 10_000]),
    distortion: impulse.distortion ?? null,
    warnings: warningsOf(impulse, peak, slope, response, octaves, view.hasNoise),
  };
}

interface SpectralView {
  readonly spectrum: Float64Array;
  readonly powersOf: BandPowers;
  readonly least: Float64Array;
  readonly binWidth_hz: number;
  /** Time of the window's first sample in the impulse response. */
  readonly before_s: number;
  readonly highest_hz: number;
  readonly sourceBand: SourceBand;
  readonly signalToNoise: readonly BandSignalToNoise[];
  readonly hasNoise: boolean;
}

/** The windowed spectrum, its minimum phase, and where it stands above the noise. */
function spectralView(
  { samples, sampleRate_hz }: Impulse,
  startIndex: number,
  window: ResponseWindow,
): SpectralView {
  const fourier = createFourier(Math.max(sampleRate_hz / BIN_HZ, window.after_s * sampleRate_hz));
  const binWidth_hz = sampleRate_hz / fourier.count;
  const spectrumAt = (index: number, under: ResponseWindow): Float64Array =>
    fourier.spectrumOf(windowed(samples, index, under, sampleRate_hz));
  const spectrum = spectrumAt(startIndex, window);
  const highest_hz = Math.min(HIGHEST_HZ, 0.45 * sampleRate_hz);
  const bands = thirdOctaves(DEEPEST_HZ, highest_hz);
  const powersOf = bandPowersOf(spectrum, binWidth_hz);
  const sound = thirdPowers(powersOf, bands);
  const sourceBand = strongBand(bands, sound, BELOW_STRONGEST_DB);
  const noise = noiseOf(samples, startIndex, window, sampleRate_hz, spectrumAt);
  const signalToNoise =
    noise === null
      ? []
      : ratios(bands, sound, thirdPowers(bandPowersOf(noise, binWidth_hz), bands));
  const known = knownBand(bands, sound, signalToNoise, sourceBand);
  return {
    spectrum,
    powersOf,
    least: minimumPhase_rad(fourier, spectrum, binWidth_hz, known),
    binWidth_hz,
    before_s: startIndex / sampleRate_hz - window.before_s,
    highest_hz,
    sourceBand,
    signalToNoise: signalToNoise.filter(({ band }) => LOWEST_HZ <= band.nominal_hz),
    hasNoise: noise !== null,
  };
}

function thirdPowers(powersOf: BandPowers, bands: readonly FrequencyBand[]): Float64Array {
  return powersOf(
    Float64Array.from(bands, ({ exact_hz }) => exact_hz),
    3,
  );
}

/** Where the level is known: without a gap about the source's own band, well above the noise and within 40 dB of the strongest. */
function knownBand(
  bands: readonly FrequencyBand[],
  powers: Float64Array,
  signalToNoise: readonly BandSignalToNoise[],
  source: SourceBand,
): SourceBand {
  const near = strongBand(bands, powers, KNOWN_RANGE_DB);
  if (signalToNoise.length === 0) return near;
  const isKnown = (i: number): boolean =>
    LEAST_FOR_RESPONSE_DB <= (signalToNoise[i]?.signalToNoise_db ?? 0);
  let first = bands.findIndex(({ upper_hz }) => source.from_hz < upper_hz);
  let last = bands.findLastIndex(({ lower_hz }) => lower_hz < source.to_hz);
  while (0 < first && isKnown(first - 1)) first--;
  while (last + 1 < bands.length && isKnown(last + 1)) last++;
  return {
    // The outer half of the outermost bands may lie beyond the sweep.
    from_hz: Math.max(near.from_hz, bands[first]?.exact_hz ?? 0),
    to_hz: Math.min(near.to_hz, bands[last]?.exact_hz ?? 0),
  };
}

/**
 * The spectrum of the end of the response, as under the same window; null where it is too short to have one.
 *
 * What is left behind the window of a short response is less than a window: its spectrum is raised by what the shorter one lets through
 * less. A decay that is not over by then passes for noise, which errs on the safe side.
 */
function noiseOf(
  samples: Float64Array,
  startIndex: number,
  { before_s, after_s }: ResponseWindow,
  sampleRate_hz: number,
  spectrumOf: (startIndex: number, window: ResponseWindow) => Float64Array,
): Float64Array | null {
  const left_s = (samples.length - startIndex) / sampleRate_hz - after_s;
  const length_s = Math.min(after_s, left_s - before_s);
  if (length_s < LEAST_NOISE_S) return null;
  const short = { before_s, after_s: length_s };
  const spectrum = spectrumOf(samples.length - Math.round(length_s * sampleRate_hz), short);
  const gain = Math.sqrt(windowEnergy_s({ before_s, after_s }) / windowEnergy_s(short));
  return gain === 1 ? spectrum : spectrum.map((value) => gain * value);
}

function ratios(
  bands: readonly FrequencyBand[],
  sound: Float64Array,
  noise: Float64Array,
): readonly BandSignalToNoise[] {
  return bands.map((band, i) => ({
    band,
    signalToNoise_db:
      10 * Math.log10(Math.max(sound[i] as number, 1e-300) / Math.max(noise[i] as number, 1e-300)),
  }));
}

function arrivalOf(
  { start_s, isTimed }: Impulse,
  peak: PeakArrival,
  slope: SlopeArrival | null,
): ArrivalFigures {
  const place_s = start_s + (slope?.arrival_s ?? peak.arrival_s);
  return {
    arrival_s: isTimed ? place_s : null,
    refusal: isTimed ? null : 'no-timing-reference',
    place_s,
    method: slope === null ? 'peak' : 'slope',
    withFilters_s: slope === null ? null : start_s + slope.groupDelay_s,
    band: slope === null ? null : { from_hz: slope.from_hz, to_hz: slope.to_hz },
  };
}

function polarityOf(peak: PeakArrival, slope: SlopeArrival | null): PolarityFigures {
  return slope === null
    ? { polarity: peakPolarity(peak), method: 'peak' }
    : { polarity: slopePolarity(slope), method: 'slope' };
}

function levelOf(powersOf: BandPowers, band: SourceBand): LevelFigures {
  const [from_hz, to_hz] = levelBand(band);
  const octaves = Math.log2(to_hz / from_hz);
  const middle = Float64Array.of(Math.sqrt(from_hz * to_hz));
  const [power = 0] = powersOf(middle, 1 / octaves);
  return { level_db: 10 * Math.log10(power), from_hz, to_hz };
}

function responseOf(
  { spectrum, powersOf, least, binWidth_hz, highest_hz, signalToNoise }: SpectralView,
  arrival_s: number,
  { smoothingCount, window }: TakeOptions,
): ResponseFigures {
  const lowest_hz = Math.max(LOWEST_HZ, 1 / window.after_s);
  const frequencies_hz = logGrid_hz(lowest_hz, highest_hz, POINTS_PER_OCTAVE);
  const powers = powersOf(frequencies_hz, smoothingCount);
  const refused = signalToNoise.filter(
    ({ signalToNoise_db }) => signalToNoise_db < LEAST_FOR_RESPONSE_DB,
  );
  const isRefused = frequencies_hz.map((f) =>
    refused.some(({ band }) => band.lower_hz <= f && f < band.upper_hz) ? 1 : 0,
  );
  const supported = (value: number, i: number): number => (isRefused[i] === 1 ? Number.NaN : value);
  return {
    frequencies_hz,
    levels_db: powers.map((power, i) => supported(10 * Math.log10(Math.max(power, 1e-300)), i)),
    phase_rad: frequencies_hz.map((f, i) => {
      const k = Math.round(f / binWidth_hz);
      const angle = Math.atan2(spectrum[2 * k + 1] as number, spectrum[2 * k] as number);
      return supported(wrapped_rad(angle + 2 * Math.PI * k * binWidth_hz * arrival_s), i);
    }),
    minimumPhase_rad: frequencies_hz.map((f, i) =>
      supported(wrapped_rad(least[Math.round(f / binWidth_hz)] as number), i),
    ),
    smoothingCount,
    window,
    refused,
  };
}

function withRinging(band: BandDecay, view: RingingView): BandFigures {
  const rings = band.refusal === 'bandwidth-time' && 20 <= (band.peakToNoise_db ?? 0);
  return { ...band, ringings: rings ? ringings(view, band.band, band.knee_s ?? 0) : [] };
}

function warningsOf(
  { samples, sampleRate_hz }: Impulse,
  peak: PeakArrival,
  slope: SlopeArrival | null,
  { window, smoothingCount }: ResponseFigures,
  octaves: readonly BandFigures[],
  hasNoise: boolean,
): readonly TakeWarning[] {
  const warnings: TakeWarning[] = [];
  if (slope === null && 0 < peak.laterHigher_db)
    warnings.push({ kind: 'later-peak-higher', higher_db: peak.laterHigher_db });
  if (!hasNoise)
    warnings.push({ kind: 'short-response', length_s: samples.length / sampleRate_hz });
  // A window of length T tells frequencies 1/T apart: a band of 1/n octave must be wider.
  const lowest_hz =
    1 / window.after_s / (2 ** (1 / (2 * smoothingCount)) - 2 ** (-1 / (2 * smoothingCount)));
  if (LOWEST_HZ < lowest_hz) warnings.push({ kind: 'window-coarse', lowest_hz });
  if (slope !== null && MOST_SCATTER_RAD < slope.scatter_rad)
    warnings.push({ kind: 'phase-scatter', scatter_rad: slope.scatter_rad });
  // ISO 3382-2 (from memory): ξ above 10 ‰, curvature above 10 %.
  const bent = octaves.filter(({ nonLinearity }) => 0.01 < (nonLinearity.t20_ratio ?? 0)).length;
  if (0 < bent) warnings.push({ kind: 'not-straight', count: bent });
  const double = octaves.filter(({ curvature_ratio }) => 0.1 < (curvature_ratio ?? 0)).length;
  if (0 < double) warnings.push({ kind: 'double-slope', count: double });
  return warnings;
}
