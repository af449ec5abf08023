// A take's files as figures, and everything that can be wrong with them as faults: nothing crashes, nothing is guessed.

import { describe, expect, test } from 'vitest';
import { readTake, type TakeFiles } from '../../server/measured/readTake.ts';
import { DESIGN, impulseAt, RATE_HZ } from '../measure/takes.ts';
import { expectNear } from '../support/expectNear.ts';
import { LENGTH_S, recordingOf, roomImpulse, SWEEP, take, textBytes, wavOf } from './takeBytes.ts';

const WHOLE = roomImpulse(0.0071, 0.5);

describe('what a sound file shows', () => {
  test('an impulse response from the moment of playing', () => {
    const reading = readTake(take(wavOf([WHOLE]), { timing: 'loopback' }));
    expect(reading.faults).toEqual([]);
    expect(reading.kind).toBe('impulse');
    // ±0.02 ms is what an arrival of a full-range source is asked to keep.
    expectNear([reading.arrival_s ?? 0], [0.0071], 2e-5, 's');
    expect(reading.polarity).toBe('upright');
    expect(reading.arrivalBy).toBe('peak');
    // Energies add: 0.5² of the direct sound, and 0.01² T fs/(6 ln 10) of the tail. One tail of chance: a band of 1.5 kHz × 0.1 s.
    const want_db = 10 * Math.log10(0.25 + (1e-4 * 0.3 * RATE_HZ) / (6 * Math.LN10));
    expectNear([reading.level?.level_db ?? 0], [want_db], 0.7, 'dB');
    expect(reading.level?.basis).toBe('relative');
    expect(reading.response?.phaseFrom).toBe('playing');
    expect(reading.octaves.find(({ frequency_hz }) => frequency_hz === 1000)?.t20_s).toBeCloseTo(
      0.3,
      1,
    );
    expect(reading.how).toMatchObject({ encoding: '24-bit integer', sampleRate_hz: RATE_HZ });
  });

  test('without a timing reference there is no arrival, with the reason', () => {
    const reading = readTake(take(wavOf([WHOLE]), { timing: 'none' }));
    expect(reading.arrival_s).toBeNull();
    expect(reading.response?.phaseFrom).toBe('arrival');
    expect(reading.refusals).toContain('No arrival: nothing tells when playing began');
    expect(reading.faults).toEqual([]);
  });

  test('an acoustic reference: arrivals from take to take', () => {
    const [early, late] = [0.0071, 0.0081].map((delay_s) =>
      readTake(take(wavOf([roomImpulse(delay_s, 0.5)]), { timing: 'acoustic' })),
    );
    expectNear([(late?.arrival_s ?? 0) - (early?.arrival_s ?? 0)], [0.001], 2e-5, 's');
    expect(early?.refusals[0]).toMatch(/^No absolute arrival/);
  });

  test('a recording of a sweep with its wire: the latency of the interface is taken off', () => {
    const channels = recordingOf(impulseAt(0.0071, -0.5, LENGTH_S), 0.0123);
    const reading = readTake(
      take(wavOf(channels), { sweep: SWEEP, loopback: 2, timing: 'loopback' }),
    );
    expect(reading.faults).toEqual([]);
    expect(reading.kind).toBe('recording');
    expectNear([reading.arrival_s ?? 0], [0.0071], 2e-5, 's');
    expectNear([reading.how?.loopback_s ?? 0], [0.0123], 2e-5, 's');
    expectNear([reading.level?.level_db ?? 0], [-6.02], 0.1, 'dB');
    expect(reading.polarity).toBe('inverted');
    expect(reading.distortion_ratio ?? 0).toBeLessThan(1e-3);
  });

  test('corrections of microphone and interface are taken off, each at its own frequencies', () => {
    const curve = (level_db: number) =>
      textBytes(`10, ${level_db}\n1000, ${level_db}\n24000, ${level_db}\n`);
    const plain = readTake(take(wavOf([WHOLE])));
    const corrected = readTake(
      take(wavOf([WHOLE]), {
        corrections: [
          { name: 'mic.txt', bytes: curve(2) },
          { name: 'interface.txt', bytes: curve(-0.5) },
        ],
      }),
    );
    expectNear(
      [(plain.level?.level_db ?? 0) - (corrected.level?.level_db ?? 0)],
      [1.5],
      1e-9,
      'dB',
    );
    expect(corrected.how?.corrections).toEqual(['mic.txt', 'interface.txt']);
  });
});

describe('what a text shows', () => {
  const lines = (level_db: number, phase = '') =>
    textBytes(
      Array.from({ length: 120 }, (_, i) => `${20 * 2 ** (i / 12)}, ${level_db}${phase}`).join(
        '\n',
      ),
    );

  test('its response as it is, its level, and whose decibels they are', () => {
    const reading = readTake(take(lines(82.5, ', 45')));
    expect(reading).toMatchObject({ kind: 'text', faults: [], arrival_s: null, polarity: null });
    expect(reading.response).toMatchObject({ smoothing: null, phaseFrom: 'arrival' });
    expect(reading.response?.phase_rad?.[0]).toBeCloseTo(Math.PI / 4, 12);
    // A flat response has its own level over every band (500 Hz to 2 kHz: EBU Tech 3343).
    expect(reading.level).toMatchObject({ from_hz: 500, to_hz: 2000, basis: 'spl' });
    expectNear([reading.level?.level_db ?? 0], [82.5], 1e-9, 'dB');
    expect(readTake(take(lines(-12))).level?.basis).toBe('relative');
  });

  /** A delay turns the phase by −360° f t: that is what a delay is. */
  const delayedText = (delay_s: number, step_hz: number, height = 0) =>
    textBytes(
      Array.from({ length: Math.floor(20_000 / step_hz) }, (_, i) => {
        const f = (i + 1) * step_hz;
        const turns = f * delay_s - Math.round(f * delay_s);
        return `${f}\t80\t${height - 360 * turns}`;
      }).join('\n'),
    );

  test('with phases from the moment of playing: arrival and polarity', () => {
    const reading = readTake(take(delayedText(0.00725, 5), { timing: 'loopback' }));
    expectNear([reading.arrival_s ?? 0], [0.00725], 2e-5, 's');
    expect(reading).toMatchObject({ arrivalBy: 'peak', polarity: 'upright', faults: [] });
    expect(reading.refusals).toEqual([
      'No decay or signal over noise: a response in text holds neither',
    ]);
    const turned = readTake(take(delayedText(0.00725, 5, 180), { timing: 'acoustic' }));
    expectNear([turned.arrival_s ?? 0], [0.00725], 2e-5, 's');
    expect(turned.polarity).toBe('inverted');
  });

  test('its arrival is refused where nobody says what the phases count from, or the points lie too far apart', () => {
    const nobody = readTake(take(delayedText(0.00725, 5)));
    expect(nobody).toMatchObject({ arrival_s: null, polarity: null });
    expect(nobody.refusals[0]).toMatch(/nothing tells when its phases count from/);
    const coarse = readTake(take(delayedText(0.00725, 60), { timing: 'loopback' }));
    expect(coarse).toMatchObject({ arrival_s: null, polarity: null });
    expect(coarse.refusals[0]).toMatch(/60 Hz apart or more.*spacing × delay is below ½/);
  });

  test('a hundred thousand points become a bounded curve of the same level', () => {
    const many = textBytes(
      Array.from({ length: 100_000 }, (_, i) => `${(i + 1) / 5}\t${i % 2 === 0 ? 3 : -3}`).join(
        '\n',
      ),
    );
    const reading = readTake(take(many));
    expect(reading.response?.frequency_hz.length).toBeLessThan(1000);
    expect(reading.response?.smoothing).toBe(48);
    // Powers of ±3 dB in turns have a mean of 10 lg((10^0.3 + 10^−0.3)/2) = 0.96 dB.
    const at = reading.response?.frequency_hz.findIndex((f) => 5000 < f) ?? -1;
    expectNear([reading.response?.level_db[at] ?? 0], [0.96], 0.1, 'dB');
  });
});

const FAULTS: readonly {
  readonly what: string;
  readonly files: () => TakeFiles;
  readonly code: string;
  readonly severity: string;
  readonly message: RegExp;
  readonly isRead: boolean;
}[] = [
  {
    what: 'nothing in it',
    files: () => take(new Uint8Array(0)),
    code: 'unreadable',
    severity: 'error',
    message: /lines with a frequency|empty/,
    isRead: false,
  },
  {
    what: 'a text without a response',
    files: () => take(textBytes('measured on a rainy day\n')),
    code: 'unreadable',
    severity: 'error',
    message: /only 0 lines with a frequency and a level/,
    isRead: false,
  },
  {
    what: 'bytes of another kind',
    files: () => take(Uint8Array.from({ length: 500 }, (_, i) => (i * 37) % 256)),
    code: 'unreadable',
    severity: 'error',
    message: /neither a WAV file nor a text/,
    isRead: false,
  },
  {
    what: 'an encoding that is not read',
    files: () => take(patched(wavOf([WHOLE]), 20, [2, 0])),
    code: 'unreadable',
    severity: 'error',
    message: /its encoding \(number 2, 24 bits\) is not read/,
    isRead: false,
  },
  {
    what: 'the end is missing',
    files: () => take(wavOf([WHOLE]).slice(0, 120_000)),
    code: 'cut-short',
    severity: 'warning',
    message: /the header promises 1\.2 s, the file holds 0\.83/,
    isRead: true,
  },
  {
    what: 'a header that lies by four gigabytes',
    files: () => take(patched(wavOf([WHOLE]), 40, [0xf0, 0xff, 0xff, 0xff])),
    code: 'cut-short',
    severity: 'warning',
    message: /the header promises/,
    isRead: true,
  },
  {
    what: 'samples that are no numbers',
    files: () => take(wavOf([WHOLE.with(500, Number.NaN)], '32f')),
    code: 'no-number',
    severity: 'error',
    message: /channel 1: 1 samples are no numbers, the first at 0\.01/,
    isRead: false,
  },
  {
    what: 'clipped',
    files: () => take(wavOf([WHOLE.map((value) => Math.max(-1, Math.min(1, 400 * value)))])),
    code: 'clipped',
    severity: 'warning',
    message: /channel 1 is clipped in \d+ places/,
    isRead: true,
  },
  {
    what: 'silent',
    files: () => take(wavOf([new Float64Array(20_000)])),
    code: 'silent',
    severity: 'error',
    message: /channel 1 is silent/,
    isRead: false,
  },
  {
    what: 'a channel that is not there',
    files: () => take(wavOf([WHOLE]), { channel: 3 }),
    code: 'no-channel',
    severity: 'error',
    message: /there is no channel 3: the file has 1/,
    isRead: false,
  },
  {
    what: 'another rate than its sweep',
    files: () => take(wavOf([WHOLE], '24', 44_100), { sweep: SWEEP }),
    code: 'sample-rate',
    severity: 'error',
    message: /44100 Hz, that of the sweep 48000 Hz/,
    isRead: false,
  },
  {
    what: 'a rate that cannot be',
    files: () => take(patched(wavOf([WHOLE]), 24, [1, 0, 0, 0])),
    code: 'sample-rate',
    severity: 'error',
    message: /a sample rate of 1 Hz cannot be/,
    isRead: false,
  },
  {
    what: 'shorter than its sweep',
    files: () => take(wavOf([WHOLE]), { sweep: SWEEP }),
    code: 'cut-short',
    severity: 'error',
    message: /it lasts 1\.2 s, what was played 3\.5 s/,
    isRead: false,
  },
  {
    what: 'a sweep that is no sound file',
    files: () => take(wavOf([WHOLE]), { sweep: textBytes('no') }),
    code: 'sweep',
    severity: 'error',
    message: /the sweep's file: this is no WAV file/,
    isRead: false,
  },
  {
    what: 'a correction that is no response',
    files: () => take(wavOf([WHOLE]), { corrections: [{ name: 'm.txt', bytes: textBytes('?') }] }),
    code: 'correction',
    severity: 'warning',
    message: /`m\.txt` is no response in text/,
    isRead: true,
  },
  {
    what: 'lines that cannot be read',
    files: () => take(textBytes('20, 1\n25, x\n31.5, y\n40, 2\n50, 3\n')),
    code: 'lines',
    severity: 'warning',
    message: /^line 2: `x` is no number: the line is left out; so is 1 more line$/,
    isRead: true,
  },
  {
    what: 'a timing that a text without phase cannot keep',
    files: () => take(textBytes('20, 1\n25, 2\n31.5, 3\n'), { timing: 'loopback' }),
    code: 'no-timing',
    severity: 'warning',
    message: /without phase/,
    isRead: true,
  },
  {
    what: 'a recording whose wire is not named',
    files: () =>
      take(wavOf(recordingOf(impulseAt(0.007, 0.5, 0.5), 0.01)), {
        sweep: SWEEP,
        timing: 'loopback',
      }),
    code: 'no-timing',
    severity: 'warning',
    message: /no channel of the recording is named as `loopback`/,
    isRead: true,
  },
  {
    what: 'a recording whose wire was not plugged in',
    files: () => {
      const [heard = WHOLE] = recordingOf(impulseAt(0.007, 0.5, 0.5), 0.01);
      const nothing = heard.map((_, i) => 1e-5 * Math.sin(i * i));
      return take(wavOf([heard, nothing]), { sweep: SWEEP, loopback: 2, timing: 'loopback' });
    },
    code: 'no-timing',
    severity: 'warning',
    message: /the sweep is not found on channel 2, the loopback/,
    isRead: true,
  },
];

test.each(FAULTS)('$what: measurement/$code', ({ files, code, severity, message, isRead }) => {
  const reading = readTake(files());
  const found = reading.faults.filter((fault) => fault.code === `measurement/${code}`);
  expect(found.map((fault) => ({ severity: fault.severity, count: found.length }))).toEqual([
    { severity, count: 1 },
  ]);
  expect(found[0]?.message).toMatch(message);
  expect(reading.kind !== null).toBe(isRead);
});

test('of channels that a take does not use nothing is told', () => {
  const clipped = WHOLE.map((value) => Math.max(-1, Math.min(1, 400 * value)));
  expect(readTake(take(wavOf([WHOLE, clipped]))).faults).toEqual([]);
  const broken = wavOf([WHOLE.with(500, Number.NaN), WHOLE], '32f');
  expect(readTake(take(broken, { channel: 2 }))).toMatchObject({ kind: 'impulse', faults: [] });
  expect(readTake(take(broken)).faults).toMatchObject([{ code: 'measurement/no-number' }]);
  expect(readTake(take(broken, { channel: 3 })).faults).toMatchObject([
    { code: 'measurement/no-channel' },
  ]);
});

test('every cut of a file and every changed byte of its header is read or refused', () => {
  const whole = wavOf([WHOLE.subarray(0, 600)]);
  for (let length = 0; length < 200; length += 7) {
    const { faults, kind } = readTake(take(whole.slice(0, length)));
    if (kind === null) expect(faults.some(({ severity }) => severity === 'error')).toBe(true);
  }
  for (let at = 0; at < 44; at++)
    for (const byte of [0, 1, 0x7f, 0xff]) {
      const { faults, kind } = readTake(take(patched(whole, at, [byte])));
      if (kind === null) expect(faults.some(({ severity }) => severity === 'error')).toBe(true);
    }
});

test('the design of the sweep is that of its tag', () => {
  expect(SWEEP.length).toBeGreaterThan(DESIGN.length_s * RATE_HZ * 3);
});

function patched(bytes: Uint8Array, at: number, put: readonly number[]): Uint8Array {
  const copy = bytes.slice();
  copy.set(put, at);
  return copy;
}
