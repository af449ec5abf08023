// The grammar of a quantity: number, unit, and ± how much, each with its place in the text. Knows no dimensions.

import type { Range } from '../model/located.ts';
import { FEET_INCHES, FEET_INCHES_MARKS } from './units.ts';

/** One number with what is written behind it. */
export interface Scanned {
  readonly value: number;
  /** As written (`mm`), or the compound unit's symbol of `15 ft 2 in` and `15'2"`, whose value is in feet. */
  readonly unit: string;
  /** Of the digits with their sign; of a compound length from its first digit to its last. */
  readonly numberRange: Range;
  /** Of the unit; of a compound length the unit written last; empty behind the number where there is none. */
  readonly unitRange: Range;
  /** White space between number and unit. */
  readonly gap: string;
}

export interface ScannedQuantity {
  readonly main: Scanned;
  readonly plusMinus: Scanned | null;
}

const SIMPLE = /^([+-]?\d+(?:\.\d+)?)(\s*)([^\s\d+\-.,±][^±]*)?$/u;
const FEET_AND_INCHES =
  /^([+-]?\d+(?:\.\d+)?)(\s*)(ft|')\s*(?:(\d+(?:\.\d+)?)(?:\s+(\d+)\/(\d+))?|(\d+)\/(\d+))\s*(in|")$/;
const INCH_FRACTION = /^([+-]?)(?:(\d+)\s+)?(\d+)\/(\d+)(\s*)(in|")$/;

/** Reads `4.62 m`, `15'2"`, `6.18 m ± 20 mm`, or a bare number (its unit is then ''). Anything else is null. */
export function scanQuantity(text: string): ScannedQuantity | null {
  const sign = text.indexOf('±');
  if (sign < 0) {
    const main = scanOne(text, 0);
    return main && { main, plusMinus: null };
  }
  const main = scanOne(text.slice(0, sign), 0);
  const plusMinus = scanOne(text.slice(sign + 1), sign + 1);
  if (main === null || plusMinus === null || plusMinus.value < 0) return null;
  return { main, plusMinus };
}

function scanOne(part: string, base: number): Scanned | null {
  const text = part.trim();
  const start = base + part.indexOf(text);
  return scanFeetAndInches(text, start) ?? scanInchFraction(text, start) ?? scanSimple(text, start);
}

function scanSimple(text: string, start: number): Scanned | null {
  const match = SIMPLE.exec(text);
  if (match === null) return null;
  const [, digits = '', gap = '', unit = ''] = match;
  const unitStart = start + digits.length + gap.length;
  return {
    value: Number(digits),
    unit,
    gap,
    numberRange: { start, end: start + digits.length },
    unitRange: { start: unitStart, end: unitStart + unit.length },
  };
}

function scanFeetAndInches(text: string, start: number): Scanned | null {
  const match = FEET_AND_INCHES.exec(text);
  if (match === null) return null;
  const [, feet = '', gap = '', footUnit, whole, over, under, over0, under0, inchUnit = ''] = match;
  const words = footUnit === 'ft';
  if (words !== (inchUnit === 'in')) return null;
  const inches = Number(whole ?? 0) + fraction(over ?? over0, under ?? under0);
  const size = Math.abs(Number(feet)) + inches / 12;
  return measured(text, start, {
    value: feet.startsWith('-') ? -size : size,
    unit: words ? FEET_INCHES : FEET_INCHES_MARKS,
    gap,
    lastUnit: inchUnit,
  });
}

function scanInchFraction(text: string, start: number): Scanned | null {
  const match = INCH_FRACTION.exec(text);
  if (match === null) return null;
  const [, sign, whole, over, under, gap = '', unit = ''] = match;
  const size = Number(whole ?? 0) + fraction(over, under);
  return measured(text, start, { value: sign === '-' ? -size : size, unit, gap, lastUnit: unit });
}

function measured(
  text: string,
  start: number,
  { value, unit, gap, lastUnit }: { value: number; unit: string; gap: string; lastUnit: string },
): Scanned | null {
  if (!Number.isFinite(value)) return null; // a fraction over 0
  const end = start + text.length;
  const unitStart = end - lastUnit.length;
  const numberEnd = start + text.slice(0, -lastUnit.length).trimEnd().length;
  return {
    value,
    unit,
    gap,
    numberRange: { start, end: numberEnd },
    unitRange: { start: unitStart, end },
  };
}

function fraction(over: string | undefined, under: string | undefined): number {
  return over === undefined || under === undefined ? 0 : Number(over) / Number(under);
}
