// The demo's files read as the server reads them: the analysis recovers the truth that they were made from.
//
// Truth: test/synthesis/heronTruth.ts and its image sources. Tolerances as the project sets them: full-range arrival ± 0.02 ms, a
// subwoofer's arrival ± 0.5 ms, level ± 0.1 dB, T20 ± 5 % where bandwidth × time exceeds 16.

import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import type { MeasuredFigures } from '../../core/measured/measuredFigures.ts';
import { measuredFigures } from '../../core/measured/measuredOf.ts';
import { withMeasured } from '../../core/measured/withMeasured.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { readTake } from '../../server/measured/readTake.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { expectNear } from '../support/expectNear.ts';
import { HERON } from '../synthesis/heronTruth.ts';
import { frequencyOf_hz, RATE_HZ, samplesOf, type Triple } from '../synthesis/imageRoom.ts';
import { heardSpectrum } from '../synthesis/measure.ts';
import { imageRoomOf, type RoomTruth, soundingOf } from '../synthesis/roomTruth.ts';
import { meanPower } from '../synthesis/takes.ts';

const ROOMS = new URL('../../examples/rooms/', import.meta.url);

function readDemo(name: string): { readonly setup: Setup; readonly measured: MeasuredFigures } {
  const setup = demoRooms().find((one) => one.name === name)?.setup;
  if (setup === undefined) throw new Error('no such room');
  const bytes = (file: string) => new Uint8Array(readFileSync(new URL(file, ROOMS)));
  const measured = measuredFigures(setup.room, ({ file, sweep, channel, loopback, timing }) =>
    readTake({
      file: bytes(file ?? ''),
      sweep: sweep ? bytes(sweep) : null,
      corrections: [],
      channel: channel ?? 1,
      loopback: loopback ?? null,
      timing,
    }),
  );
  if (measured === null) throw new Error('no takes');
  return { setup, measured };
}

const heron = readDemo('heron');

function takeOf(id: string) {
  const take = heron.measured.sessions[0]?.takes.find((one) => one.take === id);
  if (take === undefined) throw new Error(`no take ${id}`);
  return take;
}

/** Flight at 331.3 √(T/273.15), and 1.9 ms of latencies. */
function arrivalTruth_s({ temperature_k }: RoomTruth, from: Triple, to: Triple): number {
  const away_m = Math.hypot(from[0] - to[0], from[1] - to[1], from[2] - to[2]);
  return away_m / (331.3 * Math.sqrt(temperature_k / 273.15)) + 0.0019;
}

const MIX: Triple = [2.31, 2.44, 1.22];

test.each([
  { id: 'left_mix', from: HERON.at.left, to: MIX },
  { id: 'right_mix', from: HERON.at.right, to: MIX },
  { id: 'left_beside', from: HERON.at.left, to: [2.06, 2.44, 1.22] as Triple },
  { id: 'right_beside', from: HERON.at.right, to: [2.56, 2.44, 1.22] as Triple },
])('arrival of $id within 0.02 ms, upright', ({ id, from, to }) => {
  const { arrival_s, polarity } = takeOf(id);
  expectNear([arrival_s ?? Number.NaN], [arrivalTruth_s(HERON, from, to)], 2e-5, 's');
  expect(polarity).toBe('upright');
});

test('levels of left and right against each other within 0.1 dB of the spectra they were made from', () => {
  const truth_db = (name: 'left' | 'right', to: Triple) =>
    10 *
    Math.log10(
      meanPower(heardSpectrum(imageRoomOf(HERON), [soundingOf(HERON, name)], to), 500, 2000),
    );
  const levels = [
    { id: 'left_mix', truth: truth_db('left', MIX) },
    { id: 'right_mix', truth: truth_db('right', MIX) },
    { id: 'left_beside', truth: truth_db('left', [2.06, 2.44, 1.22]) },
  ];
  const off = levels.map(({ id, truth }) => (takeOf(id).level?.level_db ?? Number.NaN) - truth);
  const [first = 0] = off;
  expectNear(
    off.map((one) => one - first),
    [0, 0, 0],
    0.1,
    'dB',
  );
});

test('T20 within 5 % of the noiseless response’s own where bandwidth × time exceeds 16', () => {
  const spectrum = heardSpectrum(imageRoomOf(HERON), [soundingOf(HERON, 'left')], MIX);
  let count = 0;
  for (const { frequency_hz, t20_s } of takeOf('left_mix').octaves) {
    // Above 2 kHz the file's own rate cuts into the band.
    if (t20_s === null || frequency_hz < 250 || 2000 < frequency_hz) continue;
    // An octave is 1/√2 of its middle wide.
    expect(Math.SQRT1_2 * frequency_hz * t20_s).toBeGreaterThan(16);
    const truth_s = slopeTime_s(octaveOf(spectrum, frequency_hz));
    const said = `${frequency_hz} Hz: ${t20_s} s, truth ${truth_s} s`;
    expect(Math.abs(t20_s / truth_s - 1), said).toBeLessThan(0.05);
    count++;
  }
  expect(count).toBe(4);
});

/** One octave of a response cut out of its spectrum. */
function octaveOf(spectrum: Float64Array, frequency_hz: number): Float64Array {
  return samplesOf(
    spectrum.map((value, i) => {
      const octaves = Math.abs(
        Math.log2(Math.max(frequencyOf_hz(Math.floor(i / 2)), 1) / frequency_hz),
      );
      // Soft edges of a third of an octave, half down at the band's own.
      const share = Math.min(1, Math.max(0, (octaves - 1 / 3) * 3));
      return value * Math.cos((Math.PI / 2) * share);
    }),
  );
}

/** Backward integration and a line from −5 to −25 dB. @source ISO 3382-2 */
function slopeTime_s(samples: Float64Array): number {
  let left = 0;
  // Behind the sound lies what a sharp filter rings ahead of it, round the corner of the transform.
  const energies = samples
    .subarray(0, 0.45 * RATE_HZ)
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

test('the subwoofer’s recorded sweep: its arrival within 0.5 ms and its polarity, by phase against the plan', () => {
  const setup = withField(heron.setup, { today: null });
  const { verification } = withMeasured(setup, heron.measured);
  const sub = verification?.takes.find(({ take }) => take === 'sub_mix');
  // By hand: flight, 0.8 ms of its own, 1.00 ms dialled in.
  const truth_s = arrivalTruth_s(HERON, HERON.at.sub, MIX) - 0.0019 + 0.0008 + 0.001;
  expectNear([sub?.arrival?.measured_s ?? Number.NaN], [truth_s], 5e-4, 's');
  expect(sub?.polarity).toMatchObject({ measured: 'inverted', agrees: true });
  expect(verification?.sessions).toMatchObject([{ verdict: 'agrees', causes: [] }]);
  expect(verification?.takes.map(({ take, summary }) => `${take} ${summary}`)).toEqual(
    heron.measured.sessions[0]?.takes.map(({ take }) => `${take} agrees`),
  );
});

test('the badly set-up room: the delay that was taken out is named', () => {
  const magpie = readDemo('magpie');
  const setup = withField(magpie.setup, { today: null });
  const [verdict] = withMeasured(setup, magpie.measured).verification?.sessions ?? [];
  expect(verdict?.verdict).toBe('explained');
  expect(verdict?.causes[0]).toMatchObject({
    kind: 'delay',
    path: ['settings', 'sub', 'ports', 'out_left', 'delay'],
    message: 'The delay of 3 ms for right seems not to be dialled in',
  });
});
