// Words that messages are made of: what was written, what is expected, and the words that may have been meant.

import { referenceKinds, wordsAt } from '../describe.ts';
import { exampleText } from '../exampleText.ts';
import type { LocatedScalar } from '../model/located.ts';
import type { TextFix } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import { dimensionName } from '../quantity/dimensions.ts';
import { dimensionsOf } from '../quantity/read.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import { fix } from './reading.ts';

/** What was written, cut to what a message can bear. */
export function shown(text: string): string {
  const line = text.replace(/\s+/g, ' ');
  return line.length <= 60 ? line : `${line.slice(0, 59)}…`;
}

/** "a length", "a list", "a map of keys", "one of `on`, `off`" */
export function wantedText(schema: ResolvedSchema): string {
  const { type, quantity } = schema;
  const types = type === undefined ? [] : typeof type === 'string' ? [type] : type;
  const parts: string[] = [];
  if (quantity !== undefined) parts.push(dimensionName(dimensionsOf({ quantity })));
  if (types.includes('object')) parts.push('a map of keys');
  if (types.includes('array')) parts.push('a list');
  if (types.includes('number') || types.includes('integer')) parts.push('a number');
  if (types.includes('boolean')) parts.push('`true` or `false`');
  const words = wordsAt(schema);
  if (
    parts.length === 0 &&
    0 < words.length &&
    referenceKinds(schema).length === 0 &&
    schema.format === undefined
  ) {
    return words.length === 1
      ? `\`${words[0]}\``
      : `one of ${words.map((word) => `\`${word}\``).join(', ')}`;
  }
  if (parts.length === 0)
    return schema.format === 'date'
      ? 'a day'
      : referenceKinds(schema).length === 0
        ? 'text'
        : 'a name';
  return parts.join(' or ');
}

/** ", such as `1.20 m`" */
export function such({ examples, enum: choices }: ResolvedSchema): string {
  const [example] = examples ?? [];
  return example === undefined || choices !== undefined
    ? ''
    : `, such as \`${exampleText(example)}\``;
}

/** Changes of a word into those that may have been meant, best first. */
export function wordFixes(node: LocatedScalar, schema: ResolvedSchema): readonly TextFix[] {
  return nearNames(node.text, wordsAt(schema)).map((word) =>
    fix(`Change \`${shown(node.text)}\` to \`${word}\``, node.range, word),
  );
}
