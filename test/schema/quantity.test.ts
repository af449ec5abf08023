// Quantities: read to SI as an independent units library does, with exact places; each fault once, with its cure.

import fc from 'fast-check';
import Qty from 'js-quantities';
import { describe, expect, test } from 'vitest';
import { formatQuantity } from '../../schema/quantity/format.ts';
import type { QuantityRule } from '../../schema/quantity/quantity.ts';
import { dimensionsOf, readQuantity } from '../../schema/quantity/read.ts';
import { type Dimension, UNITS } from '../../schema/quantity/units.ts';

const si = (text: string, quantity: Dimension): number | undefined =>
  readQuantity(text, { quantity }).quantity?.si;

/** What js-quantities 1.8 calls the unit, and the SI unit that it is held against. */
const ORACLE: Readonly<Record<string, readonly [string, string]>> = {
  m: ['m', 'm'],
  mm: ['mm', 'm'],
  cm: ['cm', 'm'],
  km: ['km', 'm'],
  ft: ['ft', 'm'],
  in: ['in', 'm'],
  "'": ['ft', 'm'],
  '"': ['in', 'm'],
  s: ['s', 's'],
  ms: ['ms', 's'],
  µs: ['us', 's'],
  min: ['min', 's'],
  h: ['h', 's'],
  days: ['days', 's'],
  weeks: ['weeks', 's'],
  Hz: ['Hz', 'Hz'],
  kHz: ['kHz', 'Hz'],
  '°C': ['tempC', 'tempK'],
  '°F': ['tempF', 'tempK'],
  K: ['tempK', 'tempK'],
  hPa: ['hPa', 'Pa'],
  kPa: ['kPa', 'Pa'],
  Pa: ['Pa', 'Pa'],
  'm/s': ['m/s', 'm/s'],
  'ft/s': ['ft/s', 'm/s'],
  '°': ['deg', 'rad'],
  deg: ['deg', 'rad'],
  V: ['V', 'V'],
  mV: ['mV', 'V'],
  kg: ['kg', 'kg'],
  g: ['g', 'kg'],
  lb: ['lb', 'kg'],
  W: ['W', 'W'],
  kW: ['kW', 'W'],
  A: ['A', 'A'],
  mA: ['mA', 'A'],
  Ω: ['ohm', 'ohm'],
  kΩ: ['kohm', 'ohm'],
  ohm: ['ohm', 'ohm'],
};

describe('SI values', () => {
  const compared = UNITS.filter(({ symbol }) => symbol in ORACLE);

  test('nearly all linear units are in the comparison', () => {
    const left = UNITS.filter(({ symbol }) => !(symbol in ORACLE)).map(({ symbol }) => symbol);
    // Decibels, counts, shares, and months and years, which the library takes as 30 and 365 days.
    const expected = [
      'ft in',
      '\'"',
      'samples',
      'months',
      'years',
      'month',
      'year',
      'week',
      'day',
      '%',
    ];
    expect(left.filter((symbol) => !symbol.startsWith('dB'))).toEqual(
      expect.arrayContaining(expected),
    );
    expect(left.filter((symbol) => !symbol.startsWith('dB'))).toHaveLength(expected.length);
  });

  test.each(compared)('$symbol as js-quantities 1.8 has it', ({ symbol, dimension, close }) => {
    const [name, base] = ORACLE[symbol] ?? ['', ''];
    for (const value of [0, 1, 4.62, 21.5, 451]) {
      const want = new Qty(value, name).to(base).scalar;
      const text = `${value}${close ? '' : ' '}${symbol}`;
      expect(si(text, dimension), text).toBeCloseTo(want, 9);
    }
  });

  // Levels of a voltage: 0 dBu is 1 mW in 600 Ω, that is √0.6 V; 0 dBV is 1 V (IEC 60027-3; common practice writes 0.775 V).
  test.each([
    { text: '0 dBu', want: 0.774597, source: 'square root of 0.6 V²' },
    { text: '4 dBu', want: 1.22765, source: 'by hand: 0.774597 × 10^(4/20)' },
    { text: '0 dBV', want: 1, source: 'definition' },
    { text: '-10 dBV', want: 0.316228, source: 'by hand: 10^(-1/2)' },
    { text: '1.2 V', want: 1.2, source: 'definition' },
  ])('$text is $want V ($source)', ({ text, want }) => {
    expect(si(text, 'voltage')).toBeCloseTo(want, 5);
  });

  test.each<{ text: string; dimension: Dimension; want: number; source: string }>([
    { text: '45 %', dimension: 'ratio', want: 0.45, source: 'definition' },
    { text: '-3.5 dB', dimension: 'gain', want: -3.5, source: 'kept' },
    { text: '79 dBC', dimension: 'sound_level', want: 79, source: 'kept' },
    { text: '24 dB/oct', dimension: 'slope', want: 24, source: 'kept' },
    {
      text: '60 samples',
      dimension: 'samples',
      want: 60,
      source: 'a count: only a rate makes a time of it',
    },
    {
      text: '12 months',
      dimension: 'period',
      want: 31_556_952,
      source: 'mean Gregorian year, 365.2425 × 86 400 s',
    },
    { text: '1 day', dimension: 'period', want: 86_400, source: 'definition' },
  ])('$text ($source)', ({ text, dimension, want }) => {
    expect(si(text, dimension)).toBeCloseTo(want, 9);
  });

  // 1 ft = 0.3048 m, 1 in = 0.0254 m, exactly (international yard and pound agreement of 1959); sums by hand.
  test.each([
    [`15'2"`, 4.6228],
    ['15 ft 2 in', 4.6228],
    ['15 ft 2 1/2 in', 4.6355],
    [`15'2 1/2"`, 4.6355],
    [`15' 2"`, 4.6228],
    ['15 ft 1/2 in', 4.5847],
    ['2 1/2 in', 0.0635],
    ['1/2 in', 0.0127],
    [`-1'6"`, -0.4572],
    ['15 ft 2.5 in', 4.6355],
    [`12'`, 3.6576],
    ['6"', 0.1524],
  ])('%s is %d m', (text, want) => {
    expect(si(text, 'length')).toBeCloseTo(want, 12);
    expect(readQuantity(text, { quantity: 'length' }).fault).toBeNull();
    expect(readQuantity(text, { quantity: 'length' }).quantity?.system).toBe('imperial');
  });
});

describe('uncertainty', () => {
  test.each<[string, Dimension, number, number]>([
    ['6.18 m ± 20 mm', 'length', 6.18, 0.02],
    ['6.18 m±20 mm', 'length', 6.18, 0.02],
    ['21.5 °C ± 0.5 °C', 'temperature', 294.65, 0.5],
    ['70 °F ± 9 °F', 'temperature', 294.2611, 5],
    ['2 m ± 1 %', 'length', 2, 0.02],
    ['79 dBC ± 1 dB', 'sound_level', 79, 1],
    ['0 dBV ± 6.0206 dB', 'voltage', 1, 1], // 6.0206 dB is a factor of 2
    [`15'2" ± 1"`, 'length', 4.6228, 0.0254],
  ])('%s', (text, quantity, value, plusMinus) => {
    const { quantity: read, fault } = readQuantity(text, { quantity });
    expect(fault).toBeNull();
    expect(read?.si).toBeCloseTo(value, 3);
    expect(read?.plusMinus).toBeCloseTo(plusMinus, 5);
  });
});

describe('places', () => {
  test.each([
    ['6.18 m ± 20 mm', '6.18', 'm'],
    ['4620 mm', '4620', 'mm'],
    ['15 ft 2 1/2 in', '15 ft 2 1/2', 'in'],
    [`15'2"`, `15'2`, '"'],
  ])('of number and unit in %s', (text, number, unit) => {
    const { quantity } = readQuantity(text, { quantity: 'length' });
    const part = (range: { start: number; end: number } | undefined) =>
      text.slice(range?.start, range?.end);
    expect(part(quantity?.numberRange)).toBe(number);
    expect(part(quantity?.unitRange)).toBe(unit);
  });
});

interface FaultRow {
  readonly text: string;
  readonly rule: QuantityRule;
  /** Code, message, and the part of the text that it is about. */
  readonly want: readonly [string, string, string];
  /** The text after each of the fixes. */
  readonly fixed?: readonly string[];
}

const LENGTH: QuantityRule = { quantity: 'length', least: '-100 m', most: '100 m' };

const FAULTS: readonly FaultRow[] = [
  {
    text: '4620',
    rule: LENGTH,
    want: [
      'unit-missing',
      'a unit is missing: a length is expected here, such as `1.20 m`',
      '4620',
    ],
    fixed: ['4620 mm'],
  },
  {
    text: '2.31',
    rule: LENGTH,
    want: [
      'unit-missing',
      'a unit is missing: a length is expected here, such as `1.20 m`',
      '2.31',
    ],
    fixed: ['2.31 m'],
  },
  {
    text: '230',
    rule: { quantity: 'voltage', least: '50 V', most: '480 V' },
    want: [
      'unit-missing',
      'a unit is missing: a signal level or voltage is expected here, such as `18 dBu`',
      '230',
    ],
    fixed: ['230 V'],
  },
  {
    text: '70',
    rule: { quantity: 'temperature', least: '-50 °C', most: '80 °C' },
    want: [
      'unit-missing',
      'a unit is missing: a temperature is expected here, such as `21.5 °C`',
      '70',
    ],
    fixed: ['70 °F'],
  },
  {
    text: '48',
    rule: { quantity: 'frequency', least: '8 kHz', most: '768 kHz' },
    want: [
      'unit-missing',
      'a unit is missing: a frequency is expected here, such as `80 Hz`',
      '48',
    ],
    fixed: ['48 kHz'],
  },
  {
    text: '80 Hz',
    rule: LENGTH,
    want: ['wrong-dimension', 'a length is expected here, such as `1.20 m`', '80 Hz'],
    fixed: [],
  },
  {
    text: '80 khz',
    rule: { quantity: 'frequency' },
    want: ['unit-unknown', '`khz` is not a unit of a frequency; did you mean `kHz`?', 'khz'],
    fixed: ['80 kHz'],
  },
  {
    text: '3 Mm',
    rule: LENGTH,
    want: ['unit-unknown', '`Mm` is not a unit of a length; did you mean `mm`?', 'Mm'],
    fixed: ['3 mm'],
  },
  {
    text: '3 feet',
    rule: LENGTH,
    want: ['unit-unknown', '`feet` is not a unit of a length; did you mean `ft`?', 'feet'],
    fixed: ['3 ft'],
  },
  {
    text: '21 C',
    rule: { quantity: 'temperature' },
    want: ['unit-unknown', '`C` is not a unit of a temperature; did you mean `°C`?', 'C'],
    fixed: ['21 °C'],
  },
  {
    text: '3 furlongs',
    rule: LENGTH,
    want: [
      'unit-unknown',
      '`furlongs` is not a unit of a length: a length is expected here, such as `1.20 m`',
      'furlongs',
    ],
    fixed: [],
  },
  {
    text: '1,38 m',
    rule: LENGTH,
    want: ['decimal-comma', 'the decimal sign is a point: `1.38 m`', '1,38 m'],
    fixed: ['1.38 m'],
  },
  {
    text: '1,250 mm',
    rule: LENGTH,
    want: ['decimal-comma', 'the decimal sign is a point: `1.250 mm`', '1,250 mm'],
    fixed: ['1.250 mm', '1250 mm'],
  },
  {
    text: '',
    rule: LENGTH,
    want: ['not-a-quantity', 'a length is expected here, such as `1.20 m`', ''],
    fixed: [],
  },
  {
    text: 'warm',
    rule: { quantity: 'temperature' },
    want: ['not-a-quantity', 'a temperature is expected here, such as `21.5 °C`', 'warm'],
    fixed: [],
  },
  {
    text: 'NaN m',
    rule: LENGTH,
    want: ['not-a-quantity', 'a length is expected here, such as `1.20 m`', 'NaN m'],
    fixed: [],
  },
  {
    text: '-0.2 m',
    rule: { quantity: 'length', above: '0 m' },
    want: ['out-of-range', 'must be more than 0 m', '-0.2 m'],
    fixed: [],
  },
  {
    text: '-300 °C',
    rule: { quantity: 'temperature', least: '-50 °C', most: '80 °C' },
    want: ['out-of-range', 'must be at least -50 °C and at most 80 °C', '-300 °C'],
    fixed: [],
  },
  {
    text: '-5 samples',
    rule: { quantity: ['time', 'samples'], least: '0 s' },
    want: ['out-of-range', 'must be at least 0 s', '-5 samples'],
    fixed: [],
  },
  {
    text: '2 m ± 0.02',
    rule: LENGTH,
    want: ['unit-missing', 'a unit is missing behind `±`', '0.02'],
    fixed: ['2 m ± 0.02 m'],
  },
  {
    text: '2 m ± 5 Hz',
    rule: LENGTH,
    want: ['wrong-dimension', 'a length is expected behind `±` as well', '5 Hz'],
    fixed: [],
  },
];

describe('faults', () => {
  test.each(FAULTS)('$text', ({ text, rule, want, fixed }) => {
    const { quantity, fault } = readQuantity(text, rule);
    expect(quantity).toBeNull();
    expect([fault?.code, fault?.message, text.slice(fault?.range.start, fault?.range.end)]).toEqual(
      [`quantity/${want[0]}`, want[1], want[2]],
    );
    expect(fault?.severity).toBe('error');
    expect(fault?.fixes.map((fix) => put(text, fix.edits))).toEqual(fixed);
  });

  // Understood, and only not spelled as it should be: the value counts.
  test.each<[string, Dimension, string, number]>([
    ['4.62m', 'length', '4.62 m', 4.62],
    ['4.62  m', 'length', '4.62 m', 4.62],
    ['21.5°C', 'temperature', '21.5 °C', 294.65],
    ['110 °', 'angle', '110°', (110 * Math.PI) / 180],
    ['\u22123.5 dB', 'gain', '-3.5 dB', -3.5],
    ['15\u20322\u2033', 'length', `15'2"`, 4.6228],
    ['4.62\u00a0m', 'length', '4.62 m', 4.62],
    ['.5 m', 'length', '0.5 m', 0.5],
    ['1e3 Hz', 'frequency', '1000 Hz', 1000],
    ['2 m +/- 1 cm', 'length', '2 m ± 1 cm', 2],
    ['5 \u03bcs', 'time', '5 µs', 5e-6],
    ['- 3 dB', 'gain', '-3 dB', -3],
  ])('%s is a spelling of %s', (text, quantity, spelled, value) => {
    const { quantity: read, fault } = readQuantity(text, { quantity });
    expect(read?.si).toBeCloseTo(value, 9);
    expect([fault?.code, fault?.severity]).toEqual(['quantity/spelling', 'warning']);
    expect(fault?.fixes.map((fix) => put(text, fix.edits))).toEqual([spelled]);
    expect(fault?.fixes.every(({ safe }) => safe)).toBe(true);
  });
});

function put(
  text: string,
  edits: readonly { range: { start: number; end: number }; text: string }[],
): string {
  return edits.reduce(
    (rest, edit) => rest.slice(0, edit.range.start) + edit.text + rest.slice(edit.range.end),
    text,
  );
}

describe('properties', () => {
  const anyUnit = fc.constantFrom(...UNITS);

  test('what is written reads back, within the last decimal', () => {
    fc.assert(
      fc.property(
        anyUnit,
        fc.double({ min: -1000, max: 1000, noNaN: true }),
        fc.integer({ min: 0, max: 6 }),
        (unit, value, decimals) => {
          const { symbol, dimension, scale } = unit;
          const inUnit = scale.kind === 'decibel' ? Math.max(-100, Math.min(100, value)) : value;
          const siValue =
            scale.kind === 'decibel'
              ? scale.reference * 10 ** (inUnit / 20)
              : (inUnit + scale.offset) * scale.factor;
          const text = formatQuantity(siValue, dimension, symbol, decimals);
          const { quantity, fault } = readQuantity(text, { quantity: dimension });
          expect(fault, text).toBeNull();
          const last = 10 ** -decimals * (symbol === 'ft in' || symbol === '\'"' ? 1 / 12 : 1);
          expect(Math.abs((quantity?.value ?? Number.NaN) - inUnit), text).toBeLessThanOrEqual(
            last * 0.5000001 + 1e-9,
          );
          expect(text).not.toMatch(/^-0(?:\.0*)?(?:\s|$)/);
        },
      ),
    );
  });

  test('any text yields a quantity or a fault, and each fix lies inside the text', () => {
    const piece = fc.constantFrom(
      '1',
      '2.5',
      ',',
      '.',
      ' ',
      'm',
      'ft',
      "'",
      '"',
      '±',
      'dB',
      '°',
      '-',
      '1/2',
      'in',
      'e9',
      '+/-',
      'µs',
      'Hz',
      '%',
      '\u2212',
      'NaN',
    );
    const anyText = fc.oneof(
      fc.array(piece, { maxLength: 9 }).map((parts) => parts.join('')),
      fc.string({ maxLength: 30 }),
    );
    fc.assert(
      fc.property(
        anyText,
        fc.constantFrom<QuantityRule>(
          LENGTH,
          { quantity: ['time', 'samples', 'length'] },
          { quantity: 'gain' },
        ),
        (text, rule) => {
          const { quantity, fault } = readQuantity(text, rule);
          expect(quantity !== null || fault !== null).toBe(true);
          if (quantity !== null) {
            expect(Number.isFinite(quantity.si)).toBe(true);
            expect(dimensionsOf(rule)).toContain(quantity.dimension);
          }
          for (const { range } of fault?.fixes.flatMap(({ edits }) => edits) ?? []) {
            expect(0 <= range.start && range.start <= range.end && range.end <= text.length).toBe(
              true,
            );
          }
        },
      ),
      { numRuns: 2000 },
    );
  });

  test('a safe fix leaves nothing more to say', () => {
    const spelled = fc.tuple(
      fc.constantFrom('4.62', '-3', '0.5'),
      fc.constantFrom('', '  ', '\u00a0', '\t'),
      fc.constantFrom('m', 'mm', 'ft'),
    );
    fc.assert(
      fc.property(spelled, ([number, gap, unit]) => {
        const text = number + gap + unit;
        const { fault } = readQuantity(text, { quantity: 'length' });
        const fix = fault?.fixes.find(({ safe }) => safe);
        if (fault === null) return;
        expect(
          readQuantity(put(text, fix?.edits ?? []), { quantity: 'length' }).fault,
          text,
        ).toBeNull();
      }),
    );
  });
});
