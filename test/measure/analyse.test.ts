// `groundbass analyse` as a whole: from files to figures, refusals with their reasons, faults at their lines, exit codes.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { convolved } from '../../core/measure/fourier.ts';
import { sweepTrain } from '../../core/measure/sweep.ts';
import { run } from '../../server/cli/run.ts';
import { sweepTag } from '../../server/measure/sweepTag.ts';
import { writeWav } from '../../server/measure/writeWav.ts';
import { DESIGN, hiss, impulseAt, RATE_HZ, sum, tail } from './takes.ts';

const LATENCY_COUNT = 333;
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'analyse-'));
  const played = sweepTrain(DESIGN);
  const room = sum(impulseAt(0.00725, -0.5), tail(1, 0.3, 0.01, 0.011));
  const late = (signal: Float64Array) => signal.map((_, i) => signal[i - LATENCY_COUNT] ?? 0);
  const noise = hiss(5, played.length);
  const heard = late(convolved(played, room))
    .slice(0, played.length)
    .map((v, i) => v + 1e-5 * (noise[i] as number));
  const save = (
    name: string,
    channels: readonly Float64Array[],
    comment?: string,
    rate = RATE_HZ,
  ) =>
    writeFileSync(
      join(folder, name),
      writeWav({
        sampleRate_hz: rate,
        format: '24',
        channels,
        ...(comment === undefined ? {} : { comment }),
      }),
    );
  save('sweep.wav', [played], sweepTag(DESIGN));
  save('foreign.wav', [played]);
  save('take.wav', [heard, late(played)]);
  save('impulse.wav', [room]);
  save('short.wav', [heard.slice(0, 48000)]);
  save('other.wav', [heard], undefined, 44100);
  save('silent.wav', [new Float64Array(played.length)]);
  writeFileSync(join(folder, 'a.txt'), 'f;l\n20;0\n200;0\n2000;6\n');
  writeFileSync(join(folder, 'b.txt'), '20 0\n200 0\noops\n300 x\n2000 6\n');
  writeFileSync(join(folder, 'mic.txt'), '20 1\n200 1\n2000 1\n');
  writeFileSync(
    join(folder, 'noise.bin'),
    Uint8Array.from({ length: 999 }, (_, i) => (i * 37) % 256),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function analyse(...args: readonly string[]) {
  let out = '';
  let err = '';
  const code = await run(['analyse', ...args], {
    cwd: folder,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    tell: () => undefined,
    readInput: async () => '',
    writeFile: async () => undefined,
    colors: createColors(false),
    width: 100,
  });
  return { code, out, err };
}

async function figures(...args: readonly string[]) {
  return JSON.parse((await analyse(...args, '-f', 'json')).out).files[0];
}

describe('a recorded sweep', () => {
  test('with a loopback: arrival without the way through the interface', async () => {
    const { recording, take } = await figures(
      'take.wav',
      '--sweep',
      'sweep.wav',
      '--loopback',
      '2',
    );
    expect(recording.loopback_ms).toBeCloseTo((LATENCY_COUNT / RATE_HZ) * 1000, 3);
    expect(Math.abs(take.arrival.arrival_ms - 7.25)).toBeLessThan(0.02);
    expect(take.polarity.polarity).toBe('inverted');
    expect(recording.noise_dbfs).toBeCloseTo(20 * Math.log10(1e-5 * Math.SQRT2), 0);
  });

  test('without: refused with the reason, in words too', async () => {
    const { take } = await figures('take.wav', '--sweep', 'sweep.wav');
    expect(take.arrival).toMatchObject({ arrival_ms: null, refusal: 'no-timing-reference' });
    expect((await analyse('take.wav', '--sweep', 'sweep.wav')).out).toContain(
      'refused: no timing reference',
    );
  });

  test('of a sweep made elsewhere: the same, but for distortion', async () => {
    const { take } = await figures('take.wav', '--sweep', 'foreign.wav', '--loopback', '2');
    expect(Math.abs(take.arrival.arrival_ms - 7.25)).toBeLessThan(0.02);
    expect(take.distortion).toBeNull();
  });

  test.each([
    ['short.wav', 'wav/shorter-than-sweep'],
    ['other.wav', 'wav/other-rate'],
    ['silent.wav', 'wav/silent'],
    ['noise.bin', 'response/no-text'],
  ])('%s: %s, exit code 2', async (name, code) => {
    const result = await analyse(name, '--sweep', 'sweep.wav', '-f', 'json');
    const { faults } = JSON.parse(result.out).files[0];
    expect([result.code, faults.map((one: { code: string }) => one.code)]).toEqual([
      2,
      expect.arrayContaining([code]),
    ]);
  });
});

test('an impulse response, timed from its first sample', async () => {
  const { kind, take } = await figures('impulse.wav', '--from-start');
  expect(kind).toBe('impulse response');
  expect(Math.abs(take.arrival.arrival_ms - 7.25)).toBeLessThan(0.02);
});

describe('responses in text', () => {
  test('a fault is told at its line, the rest is read', async () => {
    const { code, out } = await analyse('b.txt');
    expect([code, out]).toEqual([
      0,
      expect.stringMatching(/^b\.txt: .*3 points[\s\S]*b\.txt:4: warning: `x` is no number/),
    ]);
  });

  test("the microphone's own response is taken off", async () => {
    const { response } = await figures('a.txt', '--correction', 'mic.txt');
    expect(response.level_db).toEqual([-1, -1, 5]);
  });

  test('averaged by power: 0 and 0 dB, 6 and 6 dB', async () => {
    const { out } = await analyse('a.txt', 'b.txt', '--average', '-f', 'json');
    const { average } = JSON.parse(out);
    expect([average.files, average.level_db[0], average.level_db.at(-1)]).toEqual([
      2,
      expect.closeTo(0, 9),
      expect.closeTo(6, 9),
    ]);
  });
});

test.each([
  [['nobody.wav'], 'does not exist'],
  [['.'], 'is no file'],
  [['take.wav', '--loopback', '2'], 'needs --sweep'],
  [['take.wav', '--sweep', 'a.txt'], 'no WAV file'],
  [['a.txt', '--average'], 'needs two'],
  [['a.txt', '--window', '9s'], '--window'],
])('%j is misuse: %s', async (args, message) => {
  const { code, err } = await analyse(...args);
  expect([code, err]).toEqual([2, expect.stringContaining(message)]);
});
