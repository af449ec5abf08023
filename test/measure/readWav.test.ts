// WAV files: each encoding gives the same signal, also those that scipy writes; lies, holes and hostile bytes give faults.

import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import wavefile from 'wavefile';
import { readWav } from '../../server/measure/readWav.ts';
import { writeWav } from '../../server/measure/writeWav.ts';

const SIGNAL = Float64Array.from({ length: 480 }, (_, i) => 0.5 * Math.sin(i / 7));
const codes = (bytes: Uint8Array) => readWav(bytes).faults.map(({ code }) => code);

function wav(
  format: '16' | '24' | '32' | '32f',
  channels: readonly Float64Array[] = [SIGNAL],
): Uint8Array {
  return writeWav({ sampleRate_hz: 48000, format, channels, comment: 'a comment' });
}

/** A file whose bytes are changed in some places. */
function changed(bytes: Uint8Array, change: (view: DataView) => void): Uint8Array {
  const copy = bytes.slice();
  change(new DataView(copy.buffer));
  return copy;
}

describe('encodings', () => {
  test.each([
    ['16', 2 ** -15],
    ['24', 2 ** -23],
    ['32', 2 ** -31],
    ['32f', 2 ** -24],
  ] as const)('%s comes back within its last bit', (format, bit) => {
    const { data, faults } = readWav(wav(format, [SIGNAL, SIGNAL.map((v) => -v), SIGNAL]));
    expect([faults, data?.channels.length, data?.sampleRate_hz, data?.comment]).toEqual([
      [],
      3,
      48000,
      'a comment',
    ]);
    for (let i = 0; i < SIGNAL.length; i++) {
      expect(Math.abs((data?.channels[0]?.[i] ?? Number.NaN) - (SIGNAL[i] as number))).toBeLessThan(
        1.6 * bit,
      );
      expect(Math.abs((data?.channels[1]?.[i] ?? Number.NaN) + (SIGNAL[i] as number))).toBeLessThan(
        1.6 * bit,
      );
    }
  });

  test('64-bit float', () => {
    const file = new wavefile.WaveFile();
    file.fromScratch(1, 96000, '64', SIGNAL);
    expect(readWav(file.toBuffer()).data?.channels[0]).toEqual(SIGNAL);
  });

  test('files that scipy writes', () => {
    const folder = mkdtempSync(join(tmpdir(), 'wav-'));
    const script = `
import numpy as np, scipy.io.wavfile as w
x = 0.5 * np.sin(np.arange(480) / 7)
w.write('i16.wav', 44100, np.round(x * 32768).astype(np.int16))
w.write('i32.wav', 44100, np.stack([np.round(x * 2**31), x * 0 + 2**20], 1).astype(np.int32))
w.write('f32.wav', 44100, x.astype(np.float32))
w.write('f64.wav', 44100, x)
`;
    const made = spawnSync('/usr/bin/python3', ['-c', script], { cwd: folder, encoding: 'utf8' });
    expect(made.stderr).toBe('');
    for (const name of ['i16', 'i32', 'f32', 'f64']) {
      const { data, faults } = readWav(readFileSync(join(folder, `${name}.wav`)));
      expect([faults, data?.sampleRate_hz]).toEqual([[], 44100]);
      const apart = data?.channels[0]?.map((v, i) => Math.abs(v - (SIGNAL[i] as number))) ?? [];
      expect(Math.max(...apart), name).toBeLessThan(2 ** -15);
    }
    rmSync(folder, { recursive: true });
  });
});

describe('faults', () => {
  test.each([
    ['nothing', new Uint8Array(0), ['wav/empty']],
    ['no WAV', new TextEncoder().encode('20 1\n30 2\n40 3\n'), ['wav/no-wav']],
    ['only the header', wav('16').slice(0, 44), ['wav/no-samples']],
    ['half a header', wav('16').slice(0, 20), ['wav/no-wav']],
    ['cut short', wav('16').slice(0, 500), ['wav/cut-short']],
    [
      'a header that promises 4 GB',
      changed(wav('16'), (v) => v.setUint32(40, 0xfffffff0, true)),
      ['wav/cut-short'],
    ],
    [
      'a size left open by the recorder',
      changed(wav('16').slice(0, 1004), (v) => v.setUint32(40, 0xffffffff, true)),
      [],
    ],
    ['no sample rate', changed(wav('16'), (v) => v.setUint32(24, 0, true)), ['wav/rate']],
    [
      'a rate that cannot be',
      changed(wav('16'), (v) => v.setUint32(24, 3_000_000_000, true)),
      ['wav/rate'],
    ],
    ['no channels', changed(wav('16'), (v) => v.setUint16(22, 0, true)), ['wav/channels']],
    [
      'thousands of channels',
      changed(wav('16'), (v) => v.setUint16(22, 60000, true)),
      ['wav/channels'],
    ],
    ['another encoding', changed(wav('16'), (v) => v.setUint16(20, 85, true)), ['wav/encoding']],
    ['bits that are none', changed(wav('16'), (v) => v.setUint16(34, 7, true)), ['wav/encoding']],
    ['silence', wav('24', [new Float64Array(100)]), ['wav/silent']],
    ['clipped', wav('24', [SIGNAL.map((v) => Math.max(-1, Math.min(1, 3 * v)))]), ['wav/clipped']],
    [
      'one sample at full scale is no clipping',
      wav('24', [SIGNAL.map((v, i) => (i === 9 ? 1 : v))]),
      [],
    ],
    [
      'not a number',
      wav('32f', [SIGNAL.map((v, i) => (i === 9 ? Number.NaN : v))]),
      ['wav/not-a-number'],
    ],
    [
      'infinite',
      wav('32f', [SIGNAL.map((v, i) => (i === 9 ? Number.POSITIVE_INFINITY : v))]),
      ['wav/not-a-number'],
    ],
  ])('%s', (_, bytes, want) => {
    expect(codes(bytes)).toEqual(want);
  });

  test('what is cut short is still read up to there', () => {
    expect(readWav(wav('16').slice(0, 44 + 201)).data?.channels[0]).toHaveLength(100);
  });
});

describe('anything at all', () => {
  const whole = wav('24', [SIGNAL, SIGNAL]);

  test('bytes changed anywhere: no crash, no number that is none', () => {
    const change = fc.tuple(fc.nat(200), fc.nat(255));
    fc.assert(
      fc.property(
        fc.array(change, { minLength: 1, maxLength: 12 }),
        fc.nat(whole.length),
        (changes, length) => {
          const bytes = whole.slice(0, length);
          for (const [at, value] of changes) if (at < bytes.length) bytes[at] = value;
          const { data, faults } = readWav(bytes);
          expect(data !== null || 0 < faults.length).toBe(true);
          for (const channel of data?.channels ?? [])
            expect(channel.every(Number.isFinite)).toBe(true);
        },
      ),
      { numRuns: 1500 },
    );
  });

  test('chunks of any names and sizes: no crash, bounded time', () => {
    const chunk = fc.tuple(
      fc.constantFrom('fmt ', 'data', 'LIST', 'bext', 'junk', 'cue ', 'smpl', 'fact', '    '),
      fc.oneof(fc.nat(60), fc.constantFrom(0xffffffff, 0x80000000, 0)),
      fc.uint8Array({ maxLength: 40 }),
    );
    const start = performance.now();
    fc.assert(
      fc.property(fc.array(chunk, { maxLength: 8 }), (chunks) => {
        const parts = [whole.slice(0, 12), whole.slice(12, 36)].map((part) => [...part]);
        for (const [id, size, body] of chunks)
          parts.push([
            ...new TextEncoder().encode(id),
            ...new Uint8Array(Uint32Array.of(size).buffer),
            ...body,
          ]);
        readWav(Uint8Array.from(parts.flat()));
      }),
      { numRuns: 1000 },
    );
    expect(performance.now() - start).toBeLessThan(60_000);
  });
});
