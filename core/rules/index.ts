// All rules in the order in which their findings are shown: the room first, then what stands in it, the signal, the record.

import type { Rule } from './rule.ts';

/** Codes are never renamed or used again. The rules of the record come last: they look at what the others found. */
export const RULES: readonly Rule[] = [];

/** The rule of a code; undefined where there is none. */
export function ruleFor(code: string): Rule | undefined {
  return RULES.find((rule) => rule.code === code);
}
