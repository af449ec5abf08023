// Recordings of background noise and of a sound calibrator: levels against the standards' tables, findings at their lines.

import { describe, expect, test } from 'vitest';
import { calibratorTone } from '../../core/measure/calibratorTone.ts';
import { noiseLevels } from '../../core/measure/noiseLevels.ts';
import { readTake, type TakeFiles } from '../../server/measured/readTake.ts';
import { hiss, impulseAt, RATE_HZ } from '../measure/takes.ts';
import { referenceData } from '../support/referenceData.ts';
import { measuredRoom } from './measuredRoom.ts';
import { recordingOf, roomImpulse, SWEEP, take, wavOf } from './takeBytes.ts';

/** Pascals to full scale: 1 Pa (94 dB re 20 µPa) is a twentieth of a full-scale sine, 26.02 dB below it. */
const PER_PA = 1 / 20;
const FULL_SCALE_DBSPL = 20 * Math.log10(1 / 20e-6) + 20 * Math.log10(20);
const CALIBRATOR_DB = 20 * Math.log10(1 / 20e-6);

/** A sine of a sound pressure level. */
function tone(frequency_hz: number, level_dbspl: number, length_s = 4): Float64Array {
  const height = PER_PA * 10 ** ((level_dbspl - CALIBRATOR_DB) / 20);
  return Float64Array.from(
    { length: length_s * RATE_HZ },
    (_, i) => height * Math.sin((2 * Math.PI * frequency_hz * i) / RATE_HZ),
  );
}

function plus(...signals: readonly Float64Array[]): Float64Array {
  const [first = new Float64Array(0)] = signals;
  return first.map((_, i) => signals.reduce((sum, one) => sum + (one[i] ?? 0), 0));
}

const CALIBRATOR = wavOf([tone(1000, CALIBRATOR_DB)]);
const reference = (bytes: Uint8Array, frequency_hz: number | null = null) =>
  ({
    calibrator: { bytes, channel: 1, level_dbspl: CALIBRATOR_DB, frequency_hz },
    fullScale_dbspl: null,
  }) satisfies TakeFiles['reference'];

const noiseTake = (signal: Float64Array, bytes = CALIBRATOR) =>
  readTake(take(wavOf([signal]), { records: 'noise', reference: reference(bytes) }));

describe('levels', () => {
  const { nominal_hz, exact_hz, A_db } =
    referenceData<Record<'nominal_hz' | 'exact_hz' | 'A_db', readonly number[]>>(
      'weighting_bands',
    ).expected;
  const rows = nominal_hz.flatMap((nominal, i) =>
    25 <= nominal && nominal <= 16_000
      ? [{ nominal, exact_hz: exact_hz[i] ?? 0, a_db: A_db[i] ?? 0 }]
      : [],
  );

  // IEC 61672-1:2013 Table 3 at the exact frequencies: a sine of 94 dB reads 94 dB and its weight.
  test.each(rows)('A-weighted, of a sine at $nominal Hz', ({ exact_hz: at_hz, a_db }) => {
    const { noise } = noiseTake(tone(at_hz, 94));
    expect(noise?.basis).toBe('spl');
    expect(noise?.a_db).toBeCloseTo(94 + a_db, 1);
    expect(noise?.whole_db).toBeCloseTo(94, 1);
  });

  test('there are rows for all thirds', () => expect(rows).toHaveLength(29));

  // IEC 61260-1:2014, Table 1, class 1 (from memory): within ±0.4 dB at the middle, 16.6 dB or more an octave away.
  test.each([31.6228, 63.0957, 125.893, 251.189, 501.187, 1000, 1995.26, 3981.07, 7943.28])(
    'octaves of a sine at %d Hz',
    (at_hz) => {
      const levels = noiseLevels(tone(at_hz, 94), RATE_HZ, null).octaves.map(
        ({ band, level_dbfs }) => ({ octaves: Math.log2(band.exact_hz / at_hz), level_dbfs }),
      );
      expect(levels).toHaveLength(9);
      for (const { octaves, level_dbfs } of levels) {
        const level = level_dbfs + FULL_SCALE_DBSPL;
        if (Math.abs(octaves) < 0.1) expect(Math.abs(level - 94)).toBeLessThan(0.05);
        else expect(level).toBeLessThan(94 - 16.6);
      }
    },
  );

  // White noise: power in proportion to the bandwidth, of a third-order Butterworth band pass π/6/sin(π/6) of it (by hand).
  test('octaves of white noise', () => {
    const rms = 0.01;
    const white = hiss(7, 30 * RATE_HZ).map((value) => rms * value);
    for (const { band, level_dbfs } of noiseLevels(white, RATE_HZ, null).octaves) {
      if (band.nominal_hz < 125 || 4000 < band.nominal_hz) continue;
      const width_hz = ((band.upper_hz - band.lower_hz) * (Math.PI / 6)) / Math.sin(Math.PI / 6);
      const want = 10 * Math.log10((2 * rms * rms * width_hz) / (RATE_HZ / 2));
      // 4.34/√(B T) dB, three of them: Bendat and Piersol.
      expect(Math.abs(level_dbfs - want)).toBeLessThan(
        (3 * 4.34) / Math.sqrt(30 * width_hz) + 0.02,
      );
    }
  });

  test('the correction of the microphone is taken off, and that of the calibrator', () => {
    const corrections = [
      { name: 'm.txt', bytes: new TextEncoder().encode('20 2\n1000 2\n4000 5\n20000 5\n') },
    ];
    const heard = (at_hz: number) =>
      readTake(
        take(wavOf([tone(at_hz, 60)]), {
          records: 'noise',
          reference: reference(CALIBRATOR),
          corrections,
        }),
      ).noise?.whole_db;
    // A microphone that tells 2 dB too much tells it of the calibrator too; at 5 kHz 3 dB more.
    expect(heard(500)).toBeCloseTo(60, 1);
    expect(heard(5000)).toBeCloseTo(57, 1);
  });

  test('a stated full scale stands for a calibrator', () => {
    const { noise } = readTake(
      take(wavOf([tone(1000, 60)]), {
        records: 'noise',
        reference: { calibrator: null, fullScale_dbspl: FULL_SCALE_DBSPL },
      }),
    );
    expect(noise?.a_db).toBeCloseTo(60, 1);
  });

  test('without either, levels are against full scale and the take says so', () => {
    const { noise, faults } = readTake(take(wavOf([tone(1000, 60)]), { records: 'noise' }));
    expect(noise?.basis).toBe('relative');
    expect(noise?.a_db).toBeCloseTo(60 - FULL_SCALE_DBSPL, 1);
    expect(faults.map(({ code }) => code)).toEqual(['measurement/no-level']);
  });
});

describe('a recorded sweep with a calibrator', () => {
  const files = (signal: readonly Float64Array[]) =>
    take(wavOf(signal), { sweep: SWEEP, reference: reference(CALIBRATOR) });

  // A system of gain 0.5 under a sweep of −20 dBFS: a sine 26.02 dB below full scale.
  test('tells the sound pressure level of a sine as high as the sweep', () => {
    const { level, response } = readTake(files(recordingOf(impulseAt(0.01, 0.5), 0)));
    expect(level?.basis).toBe('spl');
    const want = FULL_SCALE_DBSPL - 20 + 20 * Math.log10(0.5);
    expect(Math.abs((level?.level_db ?? 0) - want)).toBeLessThan(0.1);
    const at = response?.frequency_hz.findIndex((f) => 1000 <= f) ?? 0;
    expect(Math.abs((response?.level_db[at] ?? 0) - want)).toBeLessThan(0.5);
  });

  test('half a second of silence before it tells no noise', () => {
    expect(readTake(files(recordingOf(roomImpulse(0.01, 0.5), 0))).noise).toBeNull();
  });
});

describe('the tone of a calibrator', () => {
  // 1 Pa RMS is 94 dB (93.98 re 20 µPa); usual calibrators: 94 and 114 dB at 1 kHz, 124 dB at 250 Hz (IEC 60942, from memory).
  test.each([
    [1000, 94],
    [1000, 114],
    [250, 104],
    [1000.8, 94],
  ])('%d Hz, %d dB', (frequency_hz, level) => {
    const found = calibratorTone(tone(frequency_hz, level), RATE_HZ);
    expect(found?.frequency_hz).toBeCloseTo(frequency_hz, 0);
    expect((found?.level_dbfs ?? 0) + FULL_SCALE_DBSPL).toBeCloseTo(level, 2);
    expect(found?.residual_ratio).toBeLessThan(0.005);
    expect(found?.unsteady_db).toBeLessThan(0.01);
  });

  test('noise beside it does not raise its level', () => {
    const rustle = hiss(3, 4 * RATE_HZ).map((value) => 0.002 * value);
    const found = calibratorTone(plus(tone(1000, 94), rustle), RATE_HZ);
    expect((found?.level_dbfs ?? 0) + FULL_SCALE_DBSPL).toBeCloseTo(94, 1);
    // 0.002 against a sine of 0.05, which is 0.0354 RMS.
    expect(found?.residual_ratio).toBeCloseTo(0.0566, 2);
  });

  test('putting it on and taking it off are left out', () => {
    const clean = tone(1000, 94, 6);
    const seated = clean.map((value, i) =>
      i < RATE_HZ || 5 * RATE_HZ < i ? 0.3 * value * Math.sin(i / 3000) : value,
    );
    const found = calibratorTone(seated, RATE_HZ);
    expect(found?.steady_s).toBeCloseTo(4, 1);
    expect((found?.level_dbfs ?? 0) + FULL_SCALE_DBSPL).toBeCloseTo(94, 1);
  });

  const faultsOf = (signal: Float64Array, frequency_hz: number | null = null) => {
    const bytes = wavOf([signal]);
    const { faults, calibrator } = readTake(
      take(bytes, { records: 'calibrator', reference: reference(bytes, frequency_hz) }),
    );
    return {
      calibrator,
      told: faults.map(({ code, severity, message }) => `${code} ${severity}: ${message}`),
    };
  };

  test('a good one has no fault', () => {
    expect(faultsOf(tone(1000, 94), 1000).told).toEqual([]);
    expect(faultsOf(tone(250, 94)).told).toEqual([]);
  });

  test.each([
    [
      'another tone',
      faultsOf(tone(440, 94)),
      /tone is at 440 Hz, a calibrator’s is 250 Hz or 1 kHz/,
    ],
    ['not the stated one', faultsOf(tone(250, 94), 1000), /tone is at 250 Hz, 1 kHz is said/],
    [
      'much beside it',
      faultsOf(plus(tone(1000, 94), tone(2000, 72))),
      /beside the tone there is 7.9 %/,
    ],
  ])('%s: a warning', (_, { calibrator, told }, message) => {
    expect(told).toHaveLength(1);
    expect(told[0]).toMatch(/^measurement\/calibrator warning/);
    expect(told[0]).toMatch(message);
    expect(calibrator).not.toBeNull();
  });

  test.each([
    ['two tones', plus(tone(1000, 94), tone(1500, 90)), /no single tone: beside 1 kHz/],
    [
      'noise',
      hiss(2, 3 * RATE_HZ).map((value) => 0.05 * value),
      /no tone is steady|no single tone/,
    ],
    [
      'music',
      tone(1000, 94).map((value, i) => value * (1 + Math.sin(i / 5000))),
      /no tone is steady/,
    ],
    ['a blip', tone(1000, 94, 0.25), /half a second is the least/],
  ])('%s: no level', (_, signal, message) => {
    const { calibrator, told } = faultsOf(signal);
    expect(calibrator).toBeNull();
    expect(told.join()).toMatch(message);
    expect(told.join()).toMatch(/measurement\/calibrator error/);
  });

  test('a clipped one is told of', () => {
    const clipped = tone(1000, 130).map((value) => Math.max(-1, Math.min(1, value)));
    expect(faultsOf(clipped).told.join()).toMatch(/measurement\/clipped/);
  });
});

describe('in a room file', () => {
  /** L = a + b NR, octaves of NR 20. @source ISO/R 1996:1971 */
  const NR_20 = [
    [31.6228, 55.4 + 0.681 * 20],
    [63.0957, 35.5 + 0.79 * 20],
    [125.893, 22 + 0.87 * 20],
    [251.189, 12 + 0.93 * 20],
    [501.187, 4.8 + 0.974 * 20],
    [1000, 20],
    [1995.26, -3.5 + 1.015 * 20],
    [3981.07, -6.1 + 1.025 * 20],
    [7943.28, -8 + 1.03 * 20],
  ] as const;
  const only = (at_hz: number) =>
    plus(...NR_20.map(([f, level]) => tone(f, f === at_hz ? level : level - 40)));
  const SESSION = `sessions:
  autumn:
    date: 2026-11-03
    calibrator: { file: takes/calibrator.wav, level: 93.98 dB, frequency: 1 kHz }
    noise:
      quiet: { file: takes/noise.wav, seat: mix }
`;
  const room = (noise: Float64Array, session = SESSION) =>
    measuredRoom(session, { 'noise.wav': wavOf([noise]), 'calibrator.wav': CALIBRATOR });
  const foundIn = ({ remarks }: Awaited<ReturnType<typeof room>>) =>
    remarks.filter(({ code }) => /noise|calibrator|level$/.test(code) && code.startsWith('meas'));

  test('a noise on NR 20 is rated so, and is beyond NR 15 where it is', async () => {
    const analysis = await room(only(251.189));
    const [noise] = analysis.setup?.measured?.sessions[0]?.noise ?? [];
    expect(noise?.background?.nr).toBeCloseTo(20, 1);
    expect(noise?.background?.governing_hz).toBe(250);
    const told = foundIn(analysis).map(({ code, message }) => `${code} ${message}`);
    // 12 + 0.93 × 15 = 25.95, 12 + 0.93 × 20 = 30.6
    expect(told).toEqual([
      'measured/noise quiet: 30.6 dB of noise at 250 Hz, at most 26.0 dB by NR 15, the most that is asked for',
      'measured/noise-differs quiet: the file does not tell this noise under space.background_noise',
    ]);
  });

  test('on the curve it is not beyond it, and quieter noise has no finding but that it may be told', async () => {
    const onNr15 = plus(
      ...NR_20.map(([f], i) => tone(f, (NR_20[i]?.[1] ?? 0) - 40)),
      tone(1000, 14.8),
    );
    expect(foundIn(await room(onNr15)).map(({ code }) => code)).toEqual(['measured/noise-differs']);
  });

  test('full_scale in the file does the same', async () => {
    const session = SESSION.replace(/ {4}calibrator.*\n/, '    full_scale: 120 dB\n');
    const analysis = await room(only(1000), session);
    expect(analysis.setup?.measured?.sessions[0]?.noise?.[0]?.background?.nr).toBeCloseTo(20, 1);
  });

  test('with nothing absolute it is not judged, and says why at its line', async () => {
    const session = SESSION.replace(/ {4}calibrator.*\n/, '');
    const told = foundIn(await room(only(1000), session));
    expect(told.map(({ code }) => code)).toEqual(['measurement/no-level']);
  });

  test('a calibrator that is none is told of at its own line', async () => {
    const analysis = await measuredRoom(SESSION, {
      'noise.wav': wavOf([only(1000)]),
      'calibrator.wav': wavOf([hiss(2, 3 * RATE_HZ).map((value) => 0.05 * value)]),
    });
    const told = foundIn(analysis).map(({ code, path }) => `${code} ${path?.join('.')}`);
    expect(told).toEqual([
      'measurement/calibrator sessions.autumn.calibrator.file',
      'measurement/no-level sessions.autumn.noise.quiet.file',
    ]);
  });

  test('files that are not there end nothing', async () => {
    const { setup } = await measuredRoom(SESSION, {});
    expect(setup?.measured?.sessions[0]?.noise?.[0]?.noise).toBeNull();
  });
});
