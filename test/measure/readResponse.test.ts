// Responses in text: every usual way of writing them gives the same numbers; what is broken is told at its line; nothing crashes.

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readResponse } from '../../server/measure/readResponse.ts';

const WANT = { frequencies: [20.5, 100, 1000], levels: [-3.25, 0, 2.5] };

function check(text: string, phase: readonly number[] | null = null): void {
  const { data, faults } = readResponse(text);
  expect(faults).toEqual([]);
  expect([...(data?.frequencies_hz ?? [])]).toEqual(WANT.frequencies);
  expect([...(data?.levels_db ?? [])]).toEqual(WANT.levels);
  const degrees = data?.phase_rad?.map((rad) => Math.round((rad * 180) / Math.PI));
  expect(degrees === undefined ? null : [...degrees]).toEqual(phase);
}

describe('written in another way', () => {
  test.each([
    ['commas', '20.5,-3.25\n100,0\n1000,2.5\n'],
    ['commas and spaces', '20.5, -3.25\n100, 0\n1000, 2.5'],
    ['semicolons', '20.5;-3.25\n100;0\n1000;2.5'],
    ['tabs', '20.5\t-3.25\n100\t0\n1000\t2.5'],
    ['spaces, indented', '   20.5   -3.25\n  100    0\n 1000    2.5  '],
    ['line ends of other systems', '20.5 -3.25\r\n100 0\r1000 2.5\r\n'],
    ['exponents and signs', '2.05e1 -3.25E+0\n+1e2 +0\n1.0e+03 .25e1'],
    ['decimal commas, semicolons', '20,5;-3,25\n100;0\n1000;2,5'],
    ['decimal commas, tabs', '20,5\t-3,25\n100,0\t0,0\n1000,0\t2,5'],
    ['decimal commas, spaces', '20,5 -3,25\n100 0,0\n1000 2,5'],
    ['a byte order mark', '\uFEFF20.5 -3.25\n100 0\n1000 2.5'],
    ['quotes', '"20.5","-3.25"\n"100","0"\n"1000","2.5"'],
    [
      'headers and comments',
      '* made by hand\n# 2026-11-03\n2026-11-03 14:05\nFrequency (Hz), SPL (dB)\n\n20.5 -3.25\n; half way\n// more\n100 0\n! x\n1000 2.5\nend',
    ],
  ])('%s', (_, text) => check(text));

  test('with phase', () => check('f;l;p\n20.5;-3.25;-170\n100;0;0\n1000;2.5;90', [-170, 0, 90]));
});

describe('broken, told at its line', () => {
  test.each([
    ['no number', '20 1\n30 NaN\n40 1\n50 1', 'response/number', 2],
    ['a lone frequency', '20 1\n30\n40 1\n50 1', 'response/line', 2],
    ['a frequency of nought', '0 1\n30 1\n40 1\n50 1', 'response/frequency', 1],
    ['a level that cannot be', '20 1\n30 1e9\n40 1\n50 1', 'response/level', 2],
    ['not in order', '20 1\n40 1\n30 1', 'response/unsorted', 3],
    ['the same frequency twice', '20 1\n30 1\n30 2\n40 1', 'response/twice', 3],
    ['phase that ends', '20 1 0\n30 1 0\n40 1', 'response/phase', 3],
    ['too few', '20 1\n30 1', 'response/no-response', null],
    ['nothing', '', 'response/no-response', null],
  ])('%s', (_, text, code, line) => {
    const { faults } = readResponse(text);
    expect(faults.map((one) => [one.code, one.line])).toEqual([[code, line]]);
  });

  test('sorted all the same, and of doubles the last counts', () => {
    const { data } = readResponse('40 4\n30 3\n20 2\n30 5\n');
    expect([...(data?.frequencies_hz ?? [])]).toEqual([20, 30, 40]);
    expect([...(data?.levels_db ?? [])]).toEqual([2, 5, 4]);
  });

  test('many faults are counted, not all told', () => {
    const { faults } = readResponse(`${'20 x\n'.repeat(5000)}20 1\n30 1\n40 1`);
    expect(faults).toHaveLength(21);
    expect(faults.at(-1)?.message).toContain('4980 more');
  });
});

describe('anything at all', () => {
  const line = fc.oneof(
    fc.string({ unit: 'binary' }),
    fc.stringMatching(/^[-+.,;\t 0-9eE"a-z]{0,40}$/),
    fc
      .tuple(fc.double(), fc.double(), fc.constantFrom(',', ';', '\t', ' ', ', '))
      .map(([f, l, s]) => `${f}${s}${l}`),
  );

  test('never crashes; what it reads is finite, ascending and within range', () => {
    fc.assert(
      fc.property(
        fc.array(line, { maxLength: 40 }),
        fc.constantFrom('\n', '\r\n', '\r'),
        (lines, end) => {
          const { data, faults } = readResponse(lines.join(end));
          expect(data !== null || faults.some(({ severity }) => severity === 'error')).toBe(true);
          data?.frequencies_hz.forEach((f, i) => {
            expect(0 < f && f < 1e6 && (data.frequencies_hz[i - 1] ?? 0) < f).toBe(true);
            expect(Number.isFinite(data.levels_db[i])).toBe(true);
          });
        },
      ),
      { numRuns: 500 },
    );
  });

  test('numbers come back from every way of writing them', () => {
    const number = (min: number, max: number) =>
      fc.integer({ min: min * 100, max: max * 100 }).map((v) => v / 100);
    fc.assert(
      fc.property(
        fc.uniqueArray(number(10, 20000), { minLength: 3, maxLength: 50 }),
        number(-60, 60),
        fc.constantFrom([';', ','], ['\t', ','], [',', '.'], [' ', '.'], ['\t', '.'], [';', '.']),
        (frequencies, level, [separator, decimal]) => {
          const sorted = [...frequencies].sort((a, b) => a - b);
          const write = (v: number): string => v.toFixed(2).replace('.', decimal ?? '.');
          const text = sorted.map((f) => `${write(f)}${separator}${write(level)}`).join('\n');
          const { data, faults } = readResponse(text);
          expect(faults).toEqual([]);
          expect([...(data?.frequencies_hz ?? [])]).toEqual(sorted);
          expect(new Set(data?.levels_db)).toEqual(new Set([level]));
        },
      ),
    );
  });

  test('long lines and long files take bounded time', () => {
    const start = performance.now();
    readResponse(' '.repeat(2_000_000));
    readResponse('1'.repeat(2_000_000));
    readResponse('20 1 '.repeat(400_000));
    readResponse('20\t1\n'.repeat(300_000));
    expect(performance.now() - start).toBeLessThan(60_000);
  });
});
