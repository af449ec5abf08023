// Writes the demo rooms' measurements: image sources, noise of a seed, a latency and a loopback. Run by `npm run measurements`.

import { mkdirSync, writeFileSync } from 'node:fs';
import { convolved } from '../../core/measure/fourier.ts';
import { type SweepDesign, sweepTrain } from '../../core/measure/sweep.ts';
import { sweepTag } from '../../server/measure/sweepTag.ts';
import { writeWav } from '../../server/measure/writeWav.ts';
import { HERON } from './heronTruth.ts';
import { RATE_HZ, samplesOf } from './imageRoom.ts';
import { MAGPIE } from './magpieTruth.ts';
import { heardSpectrum, hissOf } from './measure.ts';
import { calibrator_pa, noise_pa, recorded } from './roomNoise.ts';
import { imageRoomOf, type RoomTruth, type SourceName, soundingOf } from './roomTruth.ts';
import { type PlannedTake, placeOf } from './takes.ts';

const FOLDER = new URL('../../examples/rooms/measurements/', import.meta.url);
const INVENTED = 'Invented: worked out by image sources for this demo, not measured.';
/** Room for noise behind the sound. */
const LENGTH_S = 1.3;
const NOISE_DB = -66;

/** Mains at 12 kHz, subwoofers at 8 kHz: enough to see everything, and small files. */
const MAIN_EVERY = 4;
const SUB_EVERY = 6;

type Demo = Omit<PlannedTake, 'drive' | 'id'> & { readonly file: string };

const BOTH: readonly SourceName[] = ['left', 'sub'];
export const HERON_TAKES: readonly Demo[] = [
  { file: 'heron-left-mix', sounding: ['left'], seat: 'mix' },
  { file: 'heron-right-mix', sounding: ['right'], seat: 'mix' },
  { file: 'heron-both-mix', sounding: BOTH, seat: 'mix' },
  { file: 'heron-left-beside', sounding: ['left'], seat: 'mix', off_m: [-0.25, 0, 0] },
  { file: 'heron-right-beside', sounding: ['right'], seat: 'mix', off_m: [0.25, 0, 0] },
  { file: 'heron-both-producer', sounding: BOTH, seat: 'producer' },
  { file: 'heron-sub-producer', sounding: ['sub'], seat: 'producer' },
];
export const MAGPIE_TAKES: readonly Demo[] = [
  { file: 'magpie-left-mix', sounding: ['left'], seat: 'mix' },
  { file: 'magpie-right-mix', sounding: ['right'], seat: 'mix' },
  { file: 'magpie-sub-mix', sounding: ['sub'], seat: 'mix' },
  { file: 'magpie-right-beside', sounding: ['right'], seat: 'mix', off_m: [0.25, 0, 0] },
];

/** An impulse response as a file: its first sample is the moment of playing. */
function impulseFile(truth: RoomTruth, take: Demo, seed: number): Uint8Array {
  const every = isBass(take) ? SUB_EVERY : MAIN_EVERY;
  const samples = thinned(responseOf(truth, take), every);
  const next = hissOf(seed);
  const peak = samples.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const count = Math.round((LENGTH_S * RATE_HZ) / every);
  // The microphone's gain is set so that the first take of a room peaks at −12 dBFS; it stays for the session.
  const scaled = Float64Array.from(
    { length: count },
    (_, i) => GAIN * ((samples[i] ?? 0) + peak * 10 ** (NOISE_DB / 20) * next()),
  );
  return writeWav({
    sampleRate_hz: RATE_HZ / every,
    format: '16',
    channels: [scaled],
    comment: INVENTED,
  });
}

/** Pascals at the microphone to full scale, the same for all takes; a response's height goes with the rate besides. */
const GAIN = 2.2e-5;

function isBass({ sounding }: Demo): boolean {
  return sounding.every((name) => name === 'sub');
}

function responseOf(truth: RoomTruth, take: Demo): Float64Array {
  const sounding = take.sounding.map((name) => soundingOf(truth, name));
  return heardSpectrum(imageRoomOf(truth), sounding, placeOf(truth, take));
}

/** Samples at a lower rate, what lies above its middle faded out first. */
function thinned(spectrum: Float64Array, every: number): Float64Array {
  const bins = spectrum.length / 2 - 1;
  const [from, to] = [(0.8 * bins) / every, (0.98 * bins) / every];
  const faded = spectrum.map((value, i) => {
    const share = Math.min(1, Math.max(0, (Math.floor(i / 2) - from) / (to - from)));
    return value * 0.5 * (1 + Math.cos(Math.PI * share));
  });
  return samplesOf(faded)
    .filter((_, i) => i % every === 0)
    .map((sample) => sample * every);
}

const SWEEP: SweepDesign = {
  sampleRate_hz: RATE_HZ / SUB_EVERY,
  from_hz: 10,
  to_hz: 1000,
  length_s: 1.5,
  level_dbfs: -20,
  fadeIn_s: 0.2,
  fadeOut_s: 0.05,
  lead_s: 0.2,
  gap_s: 1.2,
  repeatCount: 1,
};
/** Of the interface, out and in again: the loopback has it too. */
const LATENCY_SAMPLES = 51;

/** A recorded sweep: microphone, and the loopback from output to input. */
function sweepFiles(truth: RoomTruth, take: Demo, seed: number) {
  const played = sweepTrain(SWEEP);
  const room = thinned(responseOf(truth, take), SUB_EVERY).map(
    (sample) => sample * GAIN * SWEEP_GAIN,
  );
  const next = hissOf(seed);
  const count = played.length + LATENCY_SAMPLES + Math.round(0.5 * SWEEP.sampleRate_hz);
  const heard = convolved(played, room);
  const late = (signal: Float64Array, noise: number) =>
    Float64Array.from(
      { length: count },
      (_, i) => (signal[i - LATENCY_SAMPLES] ?? 0) + noise * next(),
    );
  const rate = { sampleRate_hz: SWEEP.sampleRate_hz, format: '16' as const };
  return {
    sweep: writeWav({ ...rate, channels: [played], comment: sweepTag(SWEEP) }),
    recording: writeWav({
      ...rate,
      channels: [late(heard, 2e-5), late(played, 1e-5)],
      comment: INVENTED,
    }),
  };
}

/** An impulse response's samples hold the whole; of a recording its own gain is kept. */
const SWEEP_GAIN = 1;

function write(name: string, bytes: Uint8Array): void {
  writeFileSync(new URL(name, FOLDER), bytes);
  process.stdout.write(`${name} ${bytes.length}\n`);
}

mkdirSync(FOLDER, { recursive: true });
HERON_TAKES.forEach((take, i) => {
  write(`${take.file}.wav`, impulseFile(HERON, take, 11 + i));
});
MAGPIE_TAKES.forEach((take, i) => {
  write(`${take.file}.wav`, impulseFile(MAGPIE, take, 31 + i));
});
const sub: Demo = { file: 'heron-sub-mix', sounding: ['sub'], seat: 'mix' };
const { sweep, recording } = sweepFiles(HERON, sub, 23);
write('sweep-bass.wav', sweep);
write(`${sub.file}.wav`, recording);

/** A fan that hums, as the file of magpie has it. */
const MAGPIE_NOISE = [
  { frequency_hz: 31.62, level_db: 52 },
  { frequency_hz: 63.1, level_db: 44.5 },
  { frequency_hz: 125.9, level_db: 37 },
  { frequency_hz: 251.2, level_db: 32 },
  { frequency_hz: 501.2, level_db: 14 },
  { frequency_hz: 1000, level_db: 12 },
  { frequency_hz: 1995, level_db: 9 },
  { frequency_hz: 3981, level_db: 7 },
];
const FAN = [{ frequency_hz: 121.5, level_db: 45.5 }];
/** Of the microphone's gain for it: what a calibrator of 94 dB leaves 6 dB of room above. */
const FULL_SCALE_DBSPL = 100;

function pressureFile(signal_pa: Float64Array, sampleRate_hz: number): Uint8Array {
  const channels = [recorded(signal_pa, FULL_SCALE_DBSPL)];
  return writeWav({ sampleRate_hz, format: '16', channels, comment: INVENTED });
}
const tone = { frequency_hz: 1000, level_db: 94 };
write('calibrator.wav', pressureFile(calibrator_pa(tone, 8000, 2.8), 8000));
write('magpie-noise.wav', pressureFile(noise_pa(MAGPIE_NOISE, FAN, 12_000, 4, 41), 12_000));
