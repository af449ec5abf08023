// A quantity as it was typed: value, unit, SI value, and where its parts stand in the text.

import type { Range } from '../model/located.ts';
import type { TextFix } from '../model/problem.ts';
import type { Dimension, UnitSystem } from './units.ts';

export interface Quantity {
  readonly dimension: Dimension;
  /** As typed: 4620 of `4620 mm`. Of `15 ft 2 in` in feet. */
  readonly value: number;
  /** A symbol of the unit table. The weighting of a level is here too (`dBC`). */
  readonly unit: string;
  /** See `toSi`: m, s, Hz, K, rad, V …; decibels as they are, samples as their count. */
  readonly si: number;
  /** How much more or less it may be, in the unit of `si`; null where nothing was said. */
  readonly plusMinus: number | null;
  readonly system: UnitSystem;
  /** Places inside the text that was read, from 0. */
  readonly numberRange: Range;
  readonly unitRange: Range;
}

/** What is wrong with a text that should be a quantity. */
export interface QuantityFault {
  readonly code:
    | 'quantity/unit-missing'
    | 'quantity/unit-unknown'
    | 'quantity/wrong-dimension'
    | 'quantity/decimal-comma'
    | 'quantity/not-a-quantity'
    | 'quantity/spelling'
    | 'quantity/out-of-range';
  readonly severity: 'error' | 'warning';
  readonly message: string;
  /** Place inside the text that was read, from 0; so are the places in `fixes`. */
  readonly range: Range;
  readonly fixes: readonly TextFix[];
}

/** A fault may come with a quantity: then it was understood, and is only not spelled as it should be. */
export interface QuantityReading {
  readonly quantity: Quantity | null;
  readonly fault: QuantityFault | null;
}

/** What a place in the file takes; the schema's own keywords. */
export interface QuantityRule {
  readonly quantity: Dimension | readonly Dimension[];
  /** Words that may stand in place of a quantity, besides `unknown`. */
  readonly words?: readonly string[];
  /** Where the quantity is a key of a map: `unknown` is none then, and `x_…` is nobody's business. */
  readonly key?: true;
  /** Bounds as quantities: `least: '0 m'`, `above: '0 Hz'`, `most: '100 m'`. */
  readonly least?: string;
  readonly above?: string;
  readonly most?: string;
}
