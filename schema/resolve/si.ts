// One quantity's text as an SI number, with its unit as written, for the readers of this folder.

import { readQuantity } from '../quantity/read.ts';
import type { Dimension } from '../quantity/units.ts';

export type SiDimension = Dimension;

export interface Si {
  readonly value: number;
  readonly plusMinus: number | null;
  readonly dimension: Dimension;
  readonly unit: string;
}

/** @returns null for what is no quantity of these dimensions: the parse has told it */
export function siOf(text: string, dimensions: readonly Dimension[]): Si | null {
  const { quantity } = readQuantity(text, { quantity: dimensions });
  if (quantity === null) return null;
  const { si: value, plusMinus, dimension, unit } = quantity;
  return Number.isFinite(value) ? { value, plusMinus, dimension, unit } : null;
}
