// Files that lie: WAV headers with any sizes, counts and orders, cut anywhere and lying anywhere in memory; bytes of chance as texts.
//
// What holds of each: no exception, an answer or an error, nothing that is no number, and no memory that the header asked for.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { readResponse } from '../../server/measure/readResponse.ts';
import { readWav } from '../../server/measure/readWav.ts';
import { readTake } from '../../server/measured/readTake.ts';

const text = new TextEncoder();
const word = (value: number): readonly number[] => [
  ...new Uint8Array(Uint32Array.of(value).buffer),
];
const half = (value: number): readonly number[] => [
  ...new Uint8Array(Uint16Array.of(value).buffer),
];

const WORDS = fc.oneof(
  fc.constantFrom(0, 1, 2, 16, 18, 40, 0x7fffffff, 0x80000000, 0xfffffff0, 0xffffffff),
  fc.nat(300),
);
const HALVES = fc.oneof(fc.constantFrom(0, 1, 2, 0x7fff, 0x8000, 0xffff), fc.nat(80));

/** Mostly the truth, else a lie. */
const mostly = <Value>(truth: Value, lies: fc.Arbitrary<Value>): fc.Arbitrary<Value> =>
  fc.oneof({ weight: 14, arbitrary: fc.constant(truth) }, { weight: 1, arbitrary: lies });

/** Encoding, bits, encoding of the extension. */
const ENCODINGS = fc.constantFrom(
  [1, 16, 1],
  [1, 24, 1],
  [1, 32, 1],
  [3, 32, 3],
  [3, 64, 3],
  [0xfffe, 16, 1],
  [0xfffe, 24, 1],
  [0xfffe, 32, 3],
) as fc.Arbitrary<readonly [number, number, number]>;

/** A format chunk of true and false figures, with or without its extension. */
const FORMAT = fc
  .tuple(ENCODINGS, fc.constantFrom(1, 2, 3, 64))
  .chain(([[code, bits, subFormat], channelCount]) =>
    fc.record({
      code: mostly(code, HALVES),
      channelCount: mostly(channelCount, fc.oneof(fc.constantFrom(0, 65), HALVES)),
      rate_hz: mostly(48_000, fc.oneof(fc.constantFrom(0, 3, 768_001, 0xffffffff), WORDS)),
      bytesPerSecond: mostly((48_000 * channelCount * bits) / 8, WORDS),
      block: mostly((channelCount * bits) / 8, HALVES),
      bits: mostly(bits, fc.oneof(fc.constantFrom(0, 7, 8, 12, 20), HALVES)),
      extension: mostly(22, HALVES),
      validBits: mostly(bits, fc.oneof(fc.constantFrom(0, 20, 999), HALVES)),
      subFormat: mostly(subFormat, HALVES),
      length: mostly(40, fc.constantFrom(0, 4, 15, 16, 18, 20, 25, 26, 27)),
    }),
  )
  .map((one) =>
    [
      ...half(one.code),
      ...half(one.channelCount),
      ...word(one.rate_hz),
      ...word(one.bytesPerSecond),
      ...half(one.block),
      ...half(one.bits),
      ...half(one.extension),
      ...half(one.validBits),
      ...word(0),
      ...half(one.subFormat),
      ...[0, 0, 0, 0, 16, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71],
    ].slice(0, one.length),
  );

const BODY = fc.uint8Array({ maxLength: 200 }).map((bytes) => [...bytes]);
const NAMES = ['LIST', 'bext', 'ds64', 'fact', 'JUNK', 'id3 ', '\0\0\0\0', 'data', 'fmt '] as const;
const CHUNK = fc
  .record({
    part: fc.oneof(
      FORMAT.map((body) => ({ name: 'fmt ', body })),
      BODY.map((body) => ({ name: 'data', body })),
      fc.record({ name: fc.constantFrom(...NAMES), body: BODY }),
    ),
    lie: fc.option(WORDS, { freq: 3 }),
    isPadded: fc.boolean(),
  })
  .map(({ part: { name, body }, lie, isPadded }) => [
    ...text.encode(name),
    ...word(lie ?? body.length),
    ...body,
    ...(isPadded && body.length % 2 === 1 ? [0] : []),
  ]);
const FILE = fc
  .record({
    container: mostly('RIFF', fc.constantFrom('RF64', 'RIFX', 'riff', 'FORM')),
    size: WORDS,
    kind: mostly('WAVE', fc.constant('AVI ')),
    first: fc.option(FORMAT.map((body) => [...text.encode('fmt '), ...word(body.length), ...body])),
    chunks: fc.array(CHUNK, { maxLength: 6 }),
    cut: fc.option(fc.nat(400), { freq: 4 }),
    offset: fc.nat(7),
  })
  .map(({ container, size, kind, first, chunks, cut, offset }) => {
    const parts = [text.encode(container), word(size), text.encode(kind), first ?? [], ...chunks];
    const bytes = Uint8Array.from(parts.flatMap((part) => [...part])).subarray(0, cut ?? undefined);
    // Somewhere in a larger memory: nothing may lean on where it begins.
    const memory = new Uint8Array(offset + bytes.length + 5).fill(0xa5);
    memory.set(bytes, offset);
    return memory.subarray(offset, offset + bytes.length);
  });

function checkWav(bytes: Uint8Array): void {
  const { data, faults } = readWav(bytes);
  if (data === null) {
    expect(faults.some(({ severity }) => severity === 'error')).toBe(true);
    return;
  }
  const { channels, sampleRate_hz } = data;
  expect(channels.length).toBeLessThanOrEqual(64);
  expect(4000 <= sampleRate_hz && sampleRate_hz <= 768_000).toBe(true);
  expect(new Set(channels.map(({ length }) => length)).size).toBe(1);
  // A sample takes two bytes at least: what comes out was in the file.
  expect(channels.length * (channels[0]?.length ?? 0) * 2).toBeLessThanOrEqual(bytes.length);
  for (const channel of channels) expect(channel.every(Number.isFinite)).toBe(true);
}

test('headers with any sizes, counts, encodings and orders', () => {
  let readCount = 0;
  fc.assert(
    fc.property(FILE, (bytes) => {
      checkWav(bytes);
      if (readWav(bytes).data !== null) readCount++;
    }),
    { numRuns: 3000 },
  );
  // Lies are mixed with truth: some of these files can be read.
  expect(readCount).toBeGreaterThan(150);
});

test('what a header asks for is not set aside: a thousand files of a few hundred bytes take no memory to speak of', () => {
  const before = process.memoryUsage().arrayBuffers;
  const giant = (channelCount: number, promised: number) =>
    Uint8Array.from(
      [
        text.encode('RIFF'),
        word(0xffffffff),
        text.encode('WAVEfmt '),
        word(16),
        half(1),
        half(channelCount),
        word(48_000),
        word(0xffffffff),
        half(0xffff),
        half(32),
        text.encode('data'),
        word(promised),
        new Uint8Array(256).fill(1),
      ].flatMap((part) => [...part]),
    );
  for (let i = 0; i < 1000; i++) checkWav(giant(1 + (i % 64), 0xffffffff - i));
  expect(process.memoryUsage().arrayBuffers - before).toBeLessThan(64 << 20);
});

/** Two channels of 16 bits; chunks that say what is true, in any order, among others. */
test('chunks in any order, with others between them, give the same signal', () => {
  const samples = Array.from({ length: 40 }, (_, i) => Math.round(9000 * Math.sin(i)));
  const data = samples.flatMap((value) => [...half(value & 0xffff)]);
  const plain = [...half(1), ...half(2), ...word(8000), ...word(32_000), ...half(4), ...half(16)];
  const extensible = [
    ...[...half(0xfffe), ...plain.slice(2), ...half(22), ...half(16), ...word(3), ...half(1)],
    ...[0, 0, 0, 0, 16, 0, 0x80, 0, 0, 0xaa, 0, 0x38, 0x9b, 0x71],
  ];
  const chunk = (name: string, body: readonly number[]) => [
    ...text.encode(name),
    ...word(body.length),
    ...body,
    ...(body.length % 2 === 1 ? [0] : []),
  ];
  const other = fc
    .tuple(fc.constantFrom('bext', 'fact', 'JUNK', 'cue ', 'iXML'), BODY)
    .map(([name, body]) => chunk(name, body));
  fc.assert(
    fc.property(
      fc.constantFrom(plain, extensible),
      fc.array(other, { maxLength: 4 }),
      fc.infiniteStream(fc.nat(1000)),
      fc.constantFrom('RIFF', 'RF64'),
      (format, others, order, container) => {
        const chunks = [chunk('fmt ', format), chunk('data', data), ...others]
          .map((one) => ({ one, place: order.next().value ?? 0 }))
          .toSorted((a, b) => a.place - b.place)
          .flatMap(({ one }) => one);
        const head = [...text.encode(container), ...word(0), ...text.encode('WAVE')];
        const { data: read, faults } = readWav(Uint8Array.from([...head, ...chunks]));
        expect(faults).toEqual([]);
        const [left, right] = read?.channels ?? [];
        expect(Array.from(left ?? [], (value) => value * 32_768)).toEqual(
          samples.filter((_, i) => i % 2 === 0),
        );
        expect(Array.from(right ?? [], (value) => value * 32_768)).toEqual(
          samples.filter((_, i) => i % 2 === 1),
        );
      },
    ),
    { numRuns: 200 },
  );
});

test('a take of any bytes, sweep and correction of any others: read, or an error at its file', () => {
  const any = fc.oneof(
    FILE,
    fc.uint8Array({ maxLength: 300 }),
    fc.string().map((s) => text.encode(s)),
  );
  fc.assert(
    fc.property(
      any,
      fc.option(any),
      fc.array(any, { maxLength: 2 }),
      fc.integer({ min: 1, max: 9 }),
      fc.option(fc.integer({ min: 1, max: 9 })),
      fc.constantFrom('loopback' as const, 'acoustic' as const, 'none' as const, null),
      (file, sweep, corrections, channel, loopback, timing) => {
        const reading = readTake({
          file,
          sweep,
          corrections: corrections.map((bytes, i) => ({ name: `m${i}.txt`, bytes })),
          channel,
          loopback,
          timing,
        });
        if (reading.kind !== null) return;
        expect(reading.faults.some(({ severity }) => severity === 'error')).toBe(true);
      },
    ),
    { numRuns: 400 },
  );
});

test('bytes of chance as a text: an answer of finite, ascending figures, or an error', () => {
  fc.assert(
    fc.property(fc.uint8Array({ maxLength: 400 }), fc.boolean(), (bytes, isDigits) => {
      const letters = '0123456789 .,;\t\n\r-+eE#"';
      const decoded = isDigits
        ? Array.from(bytes, (byte) => letters[byte % letters.length]).join('')
        : new TextDecoder().decode(bytes);
      const { data, faults } = readResponse(decoded);
      if (data === null) {
        expect(faults.some(({ severity }) => severity === 'error')).toBe(true);
        return;
      }
      expect(data.frequencies_hz.length).toBeLessThanOrEqual(decoded.length / 3);
      data.frequencies_hz.forEach((f, i) => {
        expect((data.frequencies_hz[i - 1] ?? 0) < f && f < 1e6).toBe(true);
      });
      expect(data.levels_db.every(Number.isFinite)).toBe(true);
      expect(data.phase_rad?.every(Number.isFinite) ?? true).toBe(true);
    }),
    { numRuns: 2000 },
  );
});

test('a million lines and one are no response', () => {
  expect(readResponse('\n'.repeat(1_000_001)).faults).toMatchObject([
    { code: 'response/too-long' },
  ]);
});
