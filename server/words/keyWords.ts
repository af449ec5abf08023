// A key's meaning in words, from the schema: what it is, which unit, which range, which choices.

import { quantityRule, wordsAt } from '../../schema/describe.ts';
import { boundsText } from '../../schema/quantity/bounds.ts';
import { dimensionName } from '../../schema/quantity/dimensions.ts';
import { dimensionsOf } from '../../schema/quantity/read.ts';
import { unitsOf } from '../../schema/quantity/units.ts';
import type { ResolvedSchema } from '../../schema/resolveSchemas.ts';
import { code } from './explanation.ts';

/** Markdown; empty where the schema says nothing. */
export function keyMarkdown(schema: ResolvedSchema): string {
  const parts: string[] = [];
  if (schema.description !== undefined) parts.push(schema.description);
  const rule = quantityRule(schema);
  if (rule !== null) {
    const dimensions = dimensionsOf(rule);
    const units = [
      ...new Set(dimensions.flatMap((one) => unitsOf(one).map(({ symbol }) => symbol))),
    ];
    const bounds = boundsText(rule);
    parts.push(
      `${dimensionName(dimensions)} in ${units.map(code).join(', ')}${bounds === '' ? '' : `; ${bounds}`}`,
    );
  }
  const words = wordsAt(schema);
  const choices = words.filter((word) => word !== 'unknown');
  if (0 < choices.length && rule === null)
    parts.push(`${choices.length === 1 ? 'Or' : 'One of'} ${words.map(code).join(', ')}`);
  const [example] = schema.examples ?? [];
  if (example !== undefined && typeof example !== 'object')
    parts.push(`For instance ${code(String(example))}`);
  return parts.join('\n\n');
}
