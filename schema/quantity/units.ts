// The closed table of units: how each is written, what it measures, and how it turns into SI.

export type Dimension =
  | 'length'
  | 'time'
  | 'samples'
  | 'period'
  | 'frequency'
  | 'temperature'
  | 'ratio'
  | 'pressure'
  | 'speed'
  | 'angle'
  | 'gain'
  | 'sound_level'
  | 'voltage'
  | 'full_scale'
  | 'slope'
  | 'mass'
  | 'power'
  | 'current'
  | 'resistance';

/** Which habit a unit belongs to; null where both habits write the same. */
export type UnitSystem = 'metric' | 'imperial' | null;

export interface Unit {
  readonly symbol: string;
  readonly dimension: Dimension;
  readonly system: UnitSystem;
  /** A linear unit is `(value + offset) * factor` in SI; a decibel unit is `reference * 10^(value/20)`. */
  readonly scale:
    | { readonly kind: 'linear'; readonly factor: number; readonly offset: number }
    | { readonly kind: 'decibel'; readonly reference: number };
  /** Written right behind the number, as in `110°` and `15'`. */
  readonly close: boolean;
}

const FOOT_M = 0.3048; // exact: international yard and pound agreement of 1959
const INCH_M = 0.0254; // exact, the same
const POUND_KG = 0.45359237; // exact, the same
const DBU_REFERENCE_V = Math.sqrt(0.6); // 1 mW in 600 Ω: V² = 0.001 W × 600 Ω (IEC 60268-17 and usage)
const YEAR_S = 31_556_952; // the mean Gregorian year, 365.2425 days

function linear(
  symbol: string,
  dimension: Dimension,
  factor: number,
  more: { system?: UnitSystem; offset?: number; close?: boolean } = {},
): Unit {
  const { system = null, offset = 0, close = false } = more;
  return { symbol, dimension, system, close, scale: { kind: 'linear', factor, offset } };
}

function decibel(symbol: string, dimension: Dimension, reference: number): Unit {
  return {
    symbol,
    dimension,
    system: null,
    close: false,
    scale: { kind: 'decibel', reference },
  };
}

const METRIC = { system: 'metric' } as const;
const IMPERIAL = { system: 'imperial' } as const;

/** The compound unit of `15 ft 2 in`; its value is in feet. */
export const FEET_INCHES = 'ft in';
/** The compound unit of `15'2"`; its value is in feet. */
export const FEET_INCHES_MARKS = '\'"';

/** All units; of those of one dimension the first is the one that is offered first. */
export const UNITS: readonly Unit[] = [
  linear('m', 'length', 1, METRIC),
  linear('mm', 'length', 1e-3, METRIC),
  linear('cm', 'length', 1e-2, METRIC),
  linear('km', 'length', 1e3, METRIC),
  linear('ft', 'length', FOOT_M, IMPERIAL),
  linear('in', 'length', INCH_M, IMPERIAL),
  linear("'", 'length', FOOT_M, { system: 'imperial', close: true }),
  linear('"', 'length', INCH_M, { system: 'imperial', close: true }),
  linear(FEET_INCHES, 'length', FOOT_M, IMPERIAL),
  linear(FEET_INCHES_MARKS, 'length', FOOT_M, { system: 'imperial', close: true }),
  linear('ms', 'time', 1e-3),
  linear('s', 'time', 1),
  linear('µs', 'time', 1e-6),
  linear('min', 'time', 60),
  linear('h', 'time', 3600),
  linear('samples', 'samples', 1),
  linear('months', 'period', YEAR_S / 12),
  linear('years', 'period', YEAR_S),
  linear('weeks', 'period', 7 * 86_400),
  linear('days', 'period', 86_400),
  linear('month', 'period', YEAR_S / 12),
  linear('year', 'period', YEAR_S),
  linear('week', 'period', 7 * 86_400),
  linear('day', 'period', 86_400),
  linear('Hz', 'frequency', 1),
  linear('kHz', 'frequency', 1e3),
  linear('°C', 'temperature', 1, { system: 'metric', offset: 273.15 }),
  linear('°F', 'temperature', 5 / 9, { system: 'imperial', offset: 459.67 }),
  linear('K', 'temperature', 1, METRIC),
  linear('%', 'ratio', 1e-2),
  linear('hPa', 'pressure', 100),
  linear('kPa', 'pressure', 1e3),
  linear('Pa', 'pressure', 1),
  linear('m/s', 'speed', 1, METRIC),
  linear('ft/s', 'speed', FOOT_M, IMPERIAL),
  linear('°', 'angle', Math.PI / 180, { close: true }),
  linear('deg', 'angle', Math.PI / 180),
  linear('dB', 'gain', 1),
  linear('dBC', 'sound_level', 1),
  linear('dB', 'sound_level', 1),
  linear('dBA', 'sound_level', 1),
  linear('dBZ', 'sound_level', 1),
  decibel('dBu', 'voltage', DBU_REFERENCE_V),
  decibel('dBV', 'voltage', 1),
  linear('V', 'voltage', 1),
  linear('mV', 'voltage', 1e-3),
  linear('dBFS', 'full_scale', 1),
  linear('dB/oct', 'slope', 1),
  linear('kg', 'mass', 1, METRIC),
  linear('g', 'mass', 1e-3, METRIC),
  linear('lb', 'mass', POUND_KG, IMPERIAL),
  linear('W', 'power', 1),
  linear('kW', 'power', 1e3),
  linear('A', 'current', 1),
  linear('mA', 'current', 1e-3),
  linear('Ω', 'resistance', 1),
  linear('kΩ', 'resistance', 1e3),
  linear('ohm', 'resistance', 1),
];

const BY_SYMBOL: ReadonlyMap<string, readonly Unit[]> = groupBySymbol();

function groupBySymbol(): Map<string, Unit[]> {
  const groups = new Map<string, Unit[]>();
  for (const unit of UNITS) groups.set(unit.symbol, [...(groups.get(unit.symbol) ?? []), unit]);
  return groups;
}

/** The units written so: none, one, or (`dB`) one for each dimension that it stands for. */
export function unitsWritten(symbol: string): readonly Unit[] {
  return BY_SYMBOL.get(symbol) ?? [];
}

/** The unit written so in one dimension, or null. */
export function findUnit(symbol: string, dimension: Dimension): Unit | null {
  return unitsWritten(symbol).find((unit) => unit.dimension === dimension) ?? null;
}

/** The units of a dimension, the likeliest first. */
export function unitsOf(dimension: Dimension): readonly Unit[] {
  return UNITS.filter((unit) => unit.dimension === dimension);
}

/**
 * A value in a unit as SI: m, s, Hz, K, Pa, m/s, rad, V, kg, W, A, Ω; ratios as a part of 1; decibels (gain, level, dBFS,
 * slope) as they are; samples as their count, since only a rate makes a time of them; periods as mean Gregorian seconds.
 */
export function toSi(value: number, { scale }: Unit): number {
  if (scale.kind === 'linear') return (value + scale.offset) * scale.factor;
  return scale.reference * 10 ** (value / 20);
}

/** The inverse of `toSi`. A level in decibels of a voltage that is not > 0 is -Infinity. */
export function fromSi(si: number, { scale }: Unit): number {
  if (scale.kind === 'linear') return si / scale.factor - scale.offset;
  return si <= 0 ? Number.NEGATIVE_INFINITY : 20 * Math.log10(si / scale.reference);
}
