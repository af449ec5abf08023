// An SI value as text in a unit: what edits write and hints show.

import {
  type Dimension,
  FEET_INCHES,
  FEET_INCHES_MARKS,
  findUnit,
  fromSi,
  type Unit,
} from './units.ts';

/**
 * The value in a unit, with so many decimals (of feet and inches: of the inches); never `-0`.
 *
 * @param si see `toSi`
 * @param symbol a unit of that dimension; anything else is a RangeError
 * @returns `4.62 m`, `110°`, `15 ft 2.5 in`, `15'2.5"`; it reads back to the same value within the last decimal
 */
export function formatQuantity(
  si: number,
  dimension: Dimension,
  symbol: string,
  decimals: number,
): string {
  const unit = findUnit(symbol, dimension);
  if (unit === null) throw new RangeError(`not a unit of ${dimension}: ${symbol}`);
  if (!Number.isFinite(si)) throw new RangeError(`not a finite value: ${si}`);
  const value = fromSi(si, unit);
  if (symbol === FEET_INCHES || symbol === FEET_INCHES_MARKS) {
    return feetAndInches(value, unit, decimals);
  }
  return `${fixed(value, decimals)}${unit.close ? '' : ' '}${symbol}`;
}

function feetAndInches(feet: number, { symbol }: Unit, decimals: number): string {
  const scale = 10 ** decimals;
  const inchesRounded = Math.round(Math.abs(feet) * 12 * scale) / scale;
  const wholeFeet = Math.floor(inchesRounded / 12 + 1e-12);
  const inches = Math.max(0, inchesRounded - 12 * wholeFeet);
  const sign = feet < 0 && 0 < inchesRounded ? '-' : '';
  const rest = fixed(inches, decimals);
  return symbol === FEET_INCHES
    ? `${sign}${wholeFeet} ft ${rest} in`
    : `${sign}${wholeFeet}'${rest}"`;
}

function fixed(value: number, decimals: number): string {
  const text = value.toFixed(decimals);
  return /^-0(?:\.0*)?$/.test(text) ? text.slice(1) : text;
}
