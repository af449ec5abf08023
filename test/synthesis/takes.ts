// Takes of the synthesis as what an analysis shows of them: quick ones, for runs over many seeds.
//
// A subwoofer's whole take is analysed at a low rate; of a full-range loudspeaker only what causes are judged by: arrival and sign of
// its peak, level of the middle band, response by sixths of an octave.

import { peakArrival } from '../../core/measure/peakArrival.ts';
import { takeFigures } from '../../core/measure/take.ts';
import type { MeasuredTake } from '../../core/measured/measuredFigures.ts';
import type { MeasuringSession, MeasuringTake } from '../../schema/model/sessions.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';
import { frequencyOf_hz, RATE_HZ, samplesOf, type Triple } from './imageRoom.ts';
import { heardSpectrum, hissOf } from './measure.ts';
import { imageRoomOf, type RoomTruth, type SourceName, soundingOf } from './roomTruth.ts';

export interface PlannedTake {
  readonly id: string;
  readonly drive: 'L' | 'R';
  readonly sounding: readonly SourceName[];
  readonly seat: string;
  /** Away from the seat. */
  readonly off_m?: Triple;
  readonly timing?: 'loopback' | 'none';
}

/** Every eighth bin carries the bass; nothing of a subwoofer lies above it. */
const DECIMATION = 16;
const GRID_HZ = Array.from({ length: 24 * 5 }, (_, i) => 20 * 2 ** (i / 24));

export function placeOf(
  { seats }: Pick<RoomTruth, 'seats'>,
  { seat, off_m = [0, 0, 0] }: Pick<PlannedTake, 'seat' | 'off_m'>,
): Triple {
  const [x, y, z] = seats[seat] ?? [0, 0, 0];
  return [x + off_m[0], y + off_m[1], z + off_m[2]];
}

/** As the room file would say it. */
export function sessionOf(
  truth: Pick<RoomTruth, 'seats'>,
  takes: readonly PlannedTake[],
  temperature_k: number | null,
): MeasuringSession {
  return {
    id: 'seeded',
    path: ['sessions', 'seeded'],
    date: '2026-11-03',
    by: null,
    setup: null,
    temperature_k,
    microphone: null,
    interface: null,
    averages: [],
    takes: takes.map((take): MeasuringTake => {
      const [x_m, y_m, z_m] = placeOf(truth, take);
      return {
        id: take.id,
        path: ['sessions', 'seeded', 'takes', take.id],
        file: `${take.id}.wav`,
        drive: take.drive,
        sounding: take.sounding,
        // A take is at a seat or at a point.
        seat: take.off_m ? null : take.seat,
        at: take.off_m ? { x_m, y_m, z_m } : null,
        bypassed: [],
        changed: [],
        timing: take.timing ?? 'loopback',
      };
    }),
  };
}

/**
 * @param gain_db of the microphone's input, which nobody knows
 * @param place_m how far the microphone really stands from where it should, one deviation
 */
export function measuredTake(
  truth: RoomTruth,
  take: PlannedTake,
  seed: number,
  gain_db: number,
  place_m: number,
): MeasuredTake {
  const next = hissOf(seed);
  const room = imageRoomOf(truth);
  const at = placeOf(truth, take);
  const parts = take.sounding.map((name) => soundingOf(truth, name));
  const spectrum = heardSpectrum(room, parts, at);
  const slip_s = (place_m * next()) / room.speedOfSound_m_s;
  const isBass = take.sounding.every((name) => name === 'sub');
  const level = (from_hz: number, to_hz: number) =>
    10 * Math.log10(meanPower(spectrum, from_hz, to_hz)) + gain_db;
  const response = {
    frequency_hz: GRID_HZ,
    level_db: GRID_HZ.map(
      (f_hz) => level(f_hz * 2 ** (-1 / 12), f_hz * 2 ** (1 / 12)) + 0.1 * next(),
    ),
    phase_rad: GRID_HZ.map((f_hz) => phaseAt(spectrum, f_hz) + 0.02 * next()),
    phaseFrom: (take.timing ?? 'loopback') === 'loopback' ? 'playing' : 'arrival',
    smoothing: 6,
  } as const;
  const timed = (take.timing ?? 'loopback') === 'loopback';
  const shown = isBass ? bassFigures(spectrum) : peakFigures(spectrum);
  return {
    take: take.id,
    path: ['sessions', 'seeded', 'takes', take.id],
    drive: take.drive,
    sounding: take.sounding,
    seat: take.seat,
    at: null,
    ...EMPTY_TAKE,
    kind: 'impulse',
    response,
    arrival_s: timed ? shown.arrival_s + slip_s : null,
    arrivalBy: isBass ? 'slope' : 'peak',
    polarity: shown.polarity,
    level: isBass
      ? { level_db: level(25, 70) + 0.1 * next(), from_hz: 25, to_hz: 70, basis: 'relative' }
      : { level_db: level(500, 2000) + 0.1 * next(), from_hz: 500, to_hz: 2000, basis: 'relative' },
  };
}

/** Even over the logarithm of frequency, as pink noise would weigh it. */
export function meanPower(spectrum: Float64Array, from_hz: number, to_hz: number): number {
  const bin_hz = frequencyOf_hz(1);
  const first = Math.max(1, Math.ceil(from_hz / bin_hz));
  const last = Math.max(first, Math.floor(to_hz / bin_hz));
  let sum = 0;
  let weights = 0;
  for (let k = first; k <= last; k++) {
    sum += ((spectrum[2 * k] ?? 0) ** 2 + (spectrum[2 * k + 1] ?? 0) ** 2) / k;
    weights += 1 / k;
  }
  return sum / weights;
}

function phaseAt(spectrum: Float64Array, f_hz: number): number {
  const k = Math.round(f_hz / frequencyOf_hz(1));
  const nearest = Math.atan2(spectrum[2 * k + 1] ?? 0, spectrum[2 * k] ?? 0);
  // Bins are 1.5 Hz apart: on to the frequency itself with the delay of the way.
  const next = Math.atan2(spectrum[2 * k + 3] ?? 0, spectrum[2 * k + 2] ?? 0);
  const step = next - nearest - 2 * Math.PI * Math.round((next - nearest) / (2 * Math.PI));
  return nearest + (step * (f_hz - frequencyOf_hz(k))) / frequencyOf_hz(1);
}

interface Shown {
  readonly arrival_s: number;
  readonly polarity: MeasuredTake['polarity'];
}

function peakFigures(spectrum: Float64Array): Shown {
  const peak = peakArrival(samplesOf(spectrum), RATE_HZ);
  if (peak === null) throw new Error('silence');
  return {
    arrival_s: peak.arrival_s,
    polarity: peak.clearness_db < 1 ? 'undecided' : peak.sign < 0 ? 'inverted' : 'upright',
  };
}

function bassFigures(spectrum: Float64Array): Shown {
  const samples = samplesOf(spectrum).filter((_, i) => i % DECIMATION === 0);
  const figures = takeFigures(
    { samples, sampleRate_hz: RATE_HZ / DECIMATION, start_s: 0, isTimed: true },
    { smoothingCount: 6, window: { before_s: 0.02, after_s: 0.5 } },
  );
  if (figures === null || figures.arrival.arrival_s === null) throw new Error('silence');
  return { arrival_s: figures.arrival.arrival_s, polarity: figures.polarity.polarity };
}
