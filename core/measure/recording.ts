// From the recording of a sweep to its impulse response, levels, noise and distortion.

import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { circularPart } from './circularPart.ts';
import { deconvolved, repeatsAveraged } from './deconvolve.ts';
import { alignment } from './delayBetween.ts';
import { type Distortion, distortion } from './distortion.ts';
import { powerOfTwoFrom } from './fourier.ts';
import { rms_dbfs } from './level.ts';
import { harmonicLead_s, leadAndSweep, leadCount, type SweepDesign } from './sweep.ts';
import type { Impulse } from './take.ts';

export interface RecordedSweep {
  readonly impulse: Impulse;
  /** RMS of the part in which the sweep sounds. */
  readonly recorded_dbfs: number;
  /** RMS of the silence before it; null where there is too little. */
  readonly noise_dbfs: number | null;
  /** That silence. */
  readonly quiet: Float64Array;
  /** Of the way through the interface; null where no channel recorded it, or that channel holds no sweep. */
  readonly loopback_s: number | null;
}

/** Longest response that is kept, and what is kept before its peak. */
const MOST_S = 4;
const BEFORE_S = 0.1;
const LEAST_S = 0.05;
/** Left free at the end of the circle, so that late and early do not meet. */
const ROOM_S = 0.5;
/** Shorter silence tells no noise. */
const LEAST_NOISE_S = 0.2;

/** A wire carries what was played, whatever filters of the interface make of it. */
const LEAST_LIKENESS = 0.3;

/** What was played: by its design, or as it is in a file of unknown making. */
export type Played =
  | { readonly design: SweepDesign }
  | { readonly signal: Float64Array; readonly sampleRate_hz: number };

/**
 * @param recording from about the moment at which playing began: no further off than the silence after a sweep
 * @param played in the recording's rate
 * @param loopback recorded at the same time by a wire from output to input, if there was one
 */
export function recordedSweep(
  recording: Float64Array,
  played: Played,
  loopback: Float64Array | null,
): RecordedSweep {
  const design = 'design' in played ? played.design : null;
  const { sampleRate_hz } = 'design' in played ? played.design : played;
  const signal = 'design' in played ? leadAndSweep(played.design) : played.signal;
  const averaged = (channel: Float64Array): Float64Array =>
    design === null ? channel : repeatsAveraged(channel, design);
  const one = averaged(recording);
  const circular = responseOf(one, signal, sampleRate_hz, design);
  const peakIndex = signedPeak(circular);
  const before_s = design === null ? BEFORE_S : Math.min(BEFORE_S, harmonicLead_s(design, 2) / 2);
  const before = Math.round(before_s * sampleRate_hz);
  const tail_s = design?.gap_s ?? (one.length - signal.length) / sampleRate_hz;
  const after = Math.round(Math.min(MOST_S, Math.max(LEAST_S, tail_s)) * sampleRate_hz);
  const loopback_s =
    loopback === null ? null : wireDelay_s(signal, averaged(loopback), sampleRate_hz);
  const startIndex = peakIndex - before;
  const lead = design === null ? 0 : leadCount(design);
  const soundIndex = Math.max(0, lead + peakIndex);
  const quiet = one.subarray(0, Math.max(0, soundIndex - Math.round(0.02 * sampleRate_hz)));
  return {
    impulse: {
      samples: circularPart(circular, startIndex, before + after),
      sampleRate_hz,
      start_s: startIndex / sampleRate_hz - (loopback_s ?? 0),
      isTimed: loopback_s !== null,
      ...harmonicsOf(circular, peakIndex, design),
    },
    recorded_dbfs: rms_dbfs(one.subarray(soundIndex, soundIndex + signal.length - lead)),
    noise_dbfs: quiet.length < LEAST_NOISE_S * sampleRate_hz ? null : rms_dbfs(quiet),
    quiet,
    loopback_s,
  };
}

/**
 * The response, circular. Where the recording is longer than the circle, what hangs over is added to its start: of a circle that holds the
 * sweep and the response this changes nothing, and it may be half as large.
 */
function responseOf(
  recording: Float64Array,
  signal: Float64Array,
  sampleRate_hz: number,
  design: SweepDesign | null,
): Float64Array {
  const room = Math.round(ROOM_S * sampleRate_hz);
  const whole = powerOfTwoFrom(recording.length + room);
  if (design === null) return deconvolved(recording, signal, whole);
  const early = Math.ceil(harmonicLead_s(design, FIRST_HARMONIC_OUT) * sampleRate_hz);
  const late = Math.max(0, recording.length - signal.length);
  const folded = powerOfTwoFrom(Math.max(signal.length, early + late + room));
  const count = Math.min(whole, folded);
  return deconvolved(recording, signal, count, design);
}

/** The harmonics that are told, and the noise before them, come before the response: up to this one's place. */
const FIRST_HARMONIC_OUT = 9;

/** null where the wire carried something else, or nothing: a delay against noise would be taken for a timing. */
function wireDelay_s(
  signal: Float64Array,
  wire: Float64Array,
  sampleRate_hz: number,
): number | null {
  // On a circle that holds the sweep; half a second early or late is more than any interface is.
  const count = powerOfTwoFrom(Math.max(signal.length, sampleRate_hz));
  const { delay_s, likeness_ratio } = alignment(signal, wire, sampleRate_hz, count);
  return likeness_ratio < LEAST_LIKENESS ? null : delay_s;
}

/** Harmonics can be told apart only where the law of the sweep is known. */
function harmonicsOf(
  circular: Float64Array,
  peakIndex: number,
  design: SweepDesign | null,
): { readonly distortion?: Distortion } {
  if (design === null) return {};
  const from_hz = Math.max(20, design.from_hz);
  const to_hz = Math.min(10_000, design.to_hz / 2);
  if (to_hz <= 2 * from_hz) return {};
  const frequencies_hz = logGrid_hz(from_hz, to_hz, 3);
  return { distortion: distortion(circular, peakIndex, design, frequencies_hz) };
}

/** Where the highest sample is, the second half counted as before zero. */
function signedPeak(circular: Float64Array): number {
  let peak = 0;
  for (let i = 1; i < circular.length; i++)
    if (Math.abs(circular[peak] as number) < Math.abs(circular[i] as number)) peak = i;
  return circular.length / 2 < peak ? peak - circular.length : peak;
}
