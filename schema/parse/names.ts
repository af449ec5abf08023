// Names that people give: what is wrong with one, and one made of what was written.

import type { LocatedScalar } from '../model/located.ts';
import type { TextFix } from '../model/problem.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import { fix } from './reading.ts';
import { shown } from './words.ts';

/** What is wrong with a name, in words. */
export function nameMessage(name: string, { not }: ResolvedSchema): string {
  if (not?.enum?.includes(name))
    return `\`${name}\` means something of its own and cannot be a name`;
  return `\`${shown(name)}\` cannot be a name: a small letter first, then small letters, digits and \`_\``;
}

/** A name made of what was written. */
export function nameFixes(
  { text, range }: Pick<LocatedScalar, 'text' | 'range'>,
  { not }: ResolvedSchema,
): readonly TextFix[] {
  const made = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/([a-z0-9])([A-Z])/g, '$1_$2')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^[_0-9]+|_+$/g, '');
  if (made === '' || made === text || not?.enum?.includes(made)) return [];
  return [fix(`Change \`${shown(text)}\` to \`${made}\``, range, made)];
}
