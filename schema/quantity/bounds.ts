// The bounds that a place sets to its quantities: no negative lengths, no −300 °C.

import type { Quantity, QuantityFault, QuantityRule } from './quantity.ts';
import { scanQuantity } from './scan.ts';
import { type Dimension, toSi, unitsWritten } from './units.ts';

interface Bound {
  readonly dimension: Dimension;
  readonly si: number;
}

/** The fault of a quantity that lies beyond its bounds, saying what they are; null if it does not. */
export function checkBounds(quantity: Quantity, rule: QuantityRule): QuantityFault | null {
  const { si, dimension, numberRange, unitRange } = quantity;
  if (withinBounds(si, dimension, rule)) return null;
  return {
    code: 'quantity/out-of-range',
    severity: 'error',
    message: `must be ${boundsText(rule)}`,
    range: { start: numberRange.start, end: unitRange.end },
    fixes: [],
  };
}

/** Bounds in another unit than the value's dimension hold only where they are 0, which is 0 in all of them. */
export function withinBounds(si: number, dimension: Dimension, rule: QuantityRule): boolean {
  const limit = (text: string | undefined): number | null => {
    if (text === undefined) return null;
    const bound = readBound(text);
    return bound.dimension === dimension || bound.si === 0 ? bound.si : null;
  };
  const least = limit(rule.least);
  const above = limit(rule.above);
  const most = limit(rule.most);
  // A bound and a value reach SI by different roundings: 100 ft and 30.48 m are the same.
  const slack = 1e-9 * Math.abs(si);
  return (
    Number.isFinite(si) &&
    (least === null || least - slack <= si) &&
    (above === null || above < si) &&
    (most === null || si <= most + slack)
  );
}

/** "more than 0 m and at most 100 m" */
export function boundsText({ least, above, most }: QuantityRule): string {
  const parts = [
    least === undefined ? null : `at least ${least}`,
    above === undefined ? null : `more than ${above}`,
    most === undefined ? null : `at most ${most}`,
  ];
  return parts.filter((part) => part !== null).join(' and ');
}

function readBound(text: string): Bound {
  const main = scanQuantity(text)?.main;
  const unit = main && unitsWritten(main.unit)[0];
  if (main === undefined || unit === undefined) throw new RangeError(`not a bound: ${text}`);
  return { dimension: unit.dimension, si: toSi(main.value, unit) };
}
