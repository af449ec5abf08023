// What a surveyor reads of a synthesised room before anybody writes its file: decay times, by integration and a line written for this alone.

import { frequencyOf_hz, RATE_HZ, samplesOf, type Triple } from './imageRoom.ts';
import { heardSpectrum } from './measure.ts';
import { imageRoomOf, type RoomTruth } from './roomTruth.ts';

const AS_IT_IS = () => ({ re: 1, im: 0 });
/** Behind the sound lies what a sharp filter rings ahead of it, round the corner of the transform. */
const END_S = 0.6;

/**
 * T20 by octave, mean over mains and seats, of responses without noise or loudspeaker.
 *
 * @source ISO 3382-2: backward integration, a line from −5 to −25 dB, arithmetic mean over positions
 */
export function surveyedDecay_s(
  truth: RoomTruth,
  bands_hz: readonly number[],
): ReadonlyMap<number, number> {
  const places = Object.values(truth.seats);
  const spectra = [truth.at.left, truth.at.right].flatMap((from) =>
    places.map((to) => barePath(truth, from, to)),
  );
  return new Map(
    bands_hz.map((band_hz) => [
      band_hz,
      spectra.reduce((sum, one) => sum + decayOf_s(one, band_hz), 0) / spectra.length,
    ]),
  );
}

function barePath(truth: RoomTruth, from: Triple, to: Triple): Float64Array {
  return heardSpectrum(imageRoomOf(truth), [{ at: from, filter: AS_IT_IS }], to);
}

/** T20 of one octave of a response given as its spectrum. */
export function decayOf_s(spectrum: Float64Array, band_hz: number): number {
  return slopeTime_s(octaveOf(spectrum, band_hz));
}

/**
 * Magnitude of a Butterworth band pass of the sixth order, without its phase: √(1/(1 + ((f/fm − fm/f)/(√2 − 1/√2))⁶)).
 *
 * @source IEC 61260-1 leaves the design open; this one keeps its class 1 limits and is what the reference data's filters are (SciPy)
 */
function octaveOf(spectrum: Float64Array, band_hz: number): Float64Array {
  const width = Math.SQRT2 - Math.SQRT1_2;
  return samplesOf(
    spectrum.map((value, i) => {
      const place = Math.max(frequencyOf_hz(Math.floor(i / 2)), 1) / band_hz;
      return value / Math.sqrt(1 + ((place - 1 / place) / width) ** 6);
    }),
  );
}

function slopeTime_s(samples: Float64Array): number {
  let left = 0;
  const energies = samples
    .subarray(0, END_S * RATE_HZ)
    .toReversed()
    .map((sample) => {
      left += sample * sample;
      return left;
    });
  const points = Array.from(energies.toReversed(), (energy, i) => ({
    time_s: i / RATE_HZ,
    level_db: 10 * Math.log10(energy / left),
  })).filter(({ level_db }) => -25 <= level_db && level_db <= -5);
  const mean = (of: (one: (typeof points)[number]) => number) =>
    points.reduce((sum, one) => sum + of(one), 0) / points.length;
  const [t, l] = [mean(({ time_s }) => time_s), mean(({ level_db }) => level_db)];
  const slope =
    mean(({ time_s, level_db }) => (time_s - t) * (level_db - l)) /
    mean(({ time_s }) => (time_s - t) ** 2);
  return -60 / slope;
}
