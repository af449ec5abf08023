// Quantities on the command line: with their unit as in the files, or as a bare number in the unit that the help names.

import { InvalidArgumentError } from 'commander';
import { readQuantity } from '../../../schema/quantity/read.ts';
import type { Dimension } from '../../../schema/quantity/units.ts';

/**
 * A parser for an option, as commander wants it.
 *
 * @param unit of a bare number
 * @returns in SI, levels in dB
 */
export function quantityOption(dimension: Dimension, unit: string): (text: string) => number {
  return (text) => {
    const bare = Number(text);
    const written = text.trim() !== '' && Number.isFinite(bare) ? `${bare} ${unit}` : text;
    const { quantity, fault } = readQuantity(written, { quantity: dimension });
    if (quantity === null) throw new InvalidArgumentError(fault?.message ?? 'cannot be read');
    return quantity.si;
  };
}

/** A whole number of at least 1, and at most a limit. */
export function countOption(limit: number): (text: string) => number {
  return (text) => {
    const count = Number(text);
    if (!Number.isInteger(count) || count < 1 || limit < count)
      throw new InvalidArgumentError(`a whole number from 1 to ${limit} is expected`);
    return count;
  };
}
