// Whether a text fits a place that takes a quantity: what the compiled validators ask.

import type { QuantityRule } from './quantity.ts';
import { readQuantity } from './read.ts';

/** True for a quantity without any fault, for one of the rule's words, and for `unknown`. */
export function fitsQuantity(text: string, rule: QuantityRule): boolean {
  if (rule.key ? text.startsWith('x_') : text === 'unknown') return true;
  if (rule.words?.includes(text)) return true;
  return readQuantity(text, rule).fault === null;
}
