// Test signals: the levels they state, the sweep's own law, its inverse, the octaves of the noise, and quiet unless asked.

import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { thirdOctaves } from '../../core/acoustics/thirdOctave.ts';
import { convolved, createFourier } from '../../core/measure/fourier.ts';
import { peak_dbfs, rms_dbfs } from '../../core/measure/level.ts';
import { type NoiseDesign, pinkNoise } from '../../core/measure/pinkNoise.ts';
import { inverseSweep, type SweepDesign, sweep, sweepTrain } from '../../core/measure/sweep.ts';
import { run } from '../../server/cli/run.ts';
import { sweepFromTag, sweepTag } from '../../server/measure/sweepTag.ts';

const DESIGN: SweepDesign = {
  sampleRate_hz: 48000,
  from_hz: 10,
  to_hz: 22000,
  length_s: 4,
  level_dbfs: -30,
  fadeIn_s: 0.1,
  fadeOut_s: 0.02,
  lead_s: 0.5,
  gap_s: 1,
  repeatCount: 2,
};
const NOISE: NoiseDesign = {
  sampleRate_hz: 48000,
  from_hz: 500,
  to_hz: 2000,
  length_s: 5,
  level_dbfs: -30,
  fade_s: 0.05,
  seed: 1,
};

describe('sweep', () => {
  test('its level is that of a sine: peak and RMS alike (AES17: 0 dBFS is a full-scale sine)', () => {
    const signal = sweep(DESIGN);
    expect(peak_dbfs(signal)).toBeCloseTo(-30, 3);
    expect(rms_dbfs(signal.subarray(48000, 144000))).toBeCloseTo(-30, 2);
  });

  test('it rises by equal octaves in equal times (Farina 2000)', () => {
    const signal = sweep(DESIGN);
    // Rising zeros in an eighth of a second about the middle: the mean frequency is the geometric mean of the ends there.
    const middle = signal.subarray(96000 - 3000, 96000 + 3000);
    const zeros = middle.reduce(
      (sum, v, i) => sum + (0 < i && (middle[i - 1] as number) < 0 && 0 <= v ? 1 : 0),
      0,
    );
    const octaves = Math.log2(2200) / 32;
    const mean_hz =
      (Math.sqrt(10 * 22000) * (2 ** (octaves / 2) - 2 ** (-octaves / 2))) / (octaves * Math.LN2);
    expect(Math.abs(zeros / 0.125 - mean_hz)).toBeLessThan(8.1); // one zero more or less
  });

  test('convolved with its inverse it is an impulse, flat to 0.01 dB from 50 Hz to 20 kHz', () => {
    const impulse = convolved(sweep(DESIGN), inverseSweep(DESIGN));
    const peakIndex = impulse.reduce(
      (best, v, i) => (Math.abs(impulse[best] as number) < Math.abs(v) ? i : best),
      0,
    );
    expect(peakIndex).toBe(4 * 48000 - 1);
    const fourier = createFourier(impulse.length);
    const spectrum = fourier.spectrumOf(impulse);
    for (let f = 50; f <= 20000; f *= 1.1) {
      const k = Math.round((f * fourier.count) / 48000);
      const level =
        20 * Math.log10(Math.hypot(spectrum[2 * k] as number, spectrum[2 * k + 1] as number));
      expect(Math.abs(level), `${f} Hz`).toBeLessThan(0.01);
    }
  });

  test('repeats stand where they are said to, silence between', () => {
    const train = sweepTrain(DESIGN);
    expect(train.length).toBe(24000 + 2 * 5 * 48000);
    expect(peak_dbfs(train.subarray(0, 24000))).toBe(-Infinity);
    expect(peak_dbfs(train.subarray(24000 + 4 * 48000, 24000 + 5 * 48000))).toBe(-Infinity);
    expect([...train.subarray(30000, 30010)]).toEqual([...train.subarray(270000, 270010)]);
  });

  test('its tag tells the design again; a foreign or impossible one tells nothing', () => {
    expect(sweepFromTag(sweepTag(DESIGN), 48000)).toEqual(DESIGN);
    expect(sweepFromTag('made by hand', 48000)).toBeNull();
    expect(sweepFromTag(sweepTag({ ...DESIGN, repeatCount: 0 }), 48000)).toBeNull();
    expect(sweepFromTag(sweepTag(DESIGN), 32000)).toBeNull();
  });
});

describe('noise', () => {
  test('its level between the fades', () => {
    expect(rms_dbfs(pinkNoise({ ...NOISE, fade_s: 0 }))).toBeCloseTo(-30, 10);
  });

  test('each third octave in its band has the same power, others none (definition of pink)', () => {
    const signal = pinkNoise({ ...NOISE, from_hz: 20, to_hz: 20000, length_s: 20, fade_s: 0 });
    const fourier = createFourier(signal.length);
    const spectrum = fourier.spectrumOf(signal);
    const levels = thirdOctaves(100, 16000).map(({ lower_hz, upper_hz }) => {
      let sum = 0;
      for (
        let k = Math.ceil((lower_hz * fourier.count) / 48000);
        k * 48000 < upper_hz * fourier.count;
        k++
      )
        sum += (spectrum[2 * k] as number) ** 2 + (spectrum[2 * k + 1] as number) ** 2;
      return 10 * Math.log10(sum);
    });
    const mean = levels.reduce((a, b) => a + b) / levels.length;
    for (const level of levels) expect(Math.abs(level - mean)).toBeLessThan(0.25);
  });

  test('the same from the same seed, another from another', () => {
    expect(pinkNoise(NOISE)).toEqual(pinkNoise(NOISE));
    expect(pinkNoise({ ...NOISE, seed: 2 })[9000]).not.toBe(pinkNoise(NOISE)[9000]);
  });
});

describe('on the command line', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'signals-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  async function groundbass(...args: readonly string[]) {
    let out = '';
    let err = '';
    const code = await run(args, {
      cwd: folder,
      out: (text) => {
        out += text;
      },
      err: (text) => {
        err += text;
      },
      tell: () => undefined,
      readInput: async () => '',
      writeFile: async (path, text, { isNew }) =>
        writeFileSync(path, text, { flag: isNew ? 'wx' : 'w' }),
      colors: createColors(false),
      width: 100,
    });
    return { code, out, err };
  }

  test('quiet unless asked, with the cautions beside', async () => {
    const { code, out, err } = await groundbass(
      'sweep',
      '-o',
      'a.wav',
      '--length',
      '1',
      '-f',
      'json',
    );
    expect(code).toBe(0);
    expect(JSON.parse(out)).toMatchObject({ rms_dbfs: -30, peak_dbfs: -30, length_s: 4 });
    expect(err).toMatch(
      /people out[\s\S]*monitor control down[\s\S]*20 dB below[\s\S]*LFE route plays 10 dB/,
    );
  });

  test.each(['sweep', 'noise'])('%s louder than −12 dBFS only by name', async (verb) => {
    const args = [verb, '-o', `${verb}.wav`, '--length', '1', '--level', '-11.9dBFS'];
    const refused = await groundbass(...args);
    expect([refused.code, existsSync(join(folder, `${verb}.wav`))]).toEqual([2, false]);
    expect(refused.err).toContain('--loud');
    expect((await groundbass(...args, '--loud')).code).toBe(0);
  });

  test('what would clip is refused even then', async () => {
    const { code, err } = await groundbass('noise', '-o', 'c.wav', '--level', '-3', '--loud');
    expect([code, err]).toEqual([2, expect.stringContaining('beyond full scale')]);
  });

  test('channels: on those asked for, silence on the others', async () => {
    await groundbass(
      'noise',
      '-o',
      'two.wav',
      '--length',
      '1',
      '--channels',
      '2',
      '--on',
      '2',
      '--bits',
      '16',
    );
    const bytes = readFileSync(join(folder, 'two.wav'));
    const data = bytes.subarray(44, 44 + 4 * 48000);
    const left = Array.from({ length: 1000 }, (_, i) => data.readInt16LE(4 * (i + 9000)));
    const right = Array.from({ length: 1000 }, (_, i) => data.readInt16LE(4 * (i + 9000) + 2));
    expect([left.every((v) => v === 0), right.some((v) => v !== 0)]).toEqual([true, true]);
  });

  test.each([
    ['sweep', '--from', '2kHz', '--to', '1kHz'],
    ['sweep', '--to', '30kHz'],
    ['sweep', '--on', '2'],
    ['sweep', '--length', '4 apples'],
    ['noise', '--from', '900', '--to', '901', '--length', '1'],
  ])('%s %s %s is misuse, and nothing is written', async (...args) => {
    expect((await groundbass(...args, '-o', 'no.wav')).code).toBe(2);
    expect(existsSync(join(folder, 'no.wav'))).toBe(false);
  });
});
