// What a word refers to, in a few words: kind and maker of gear, place of a seat, gear of a speaker.

import type { Reference } from '../../schema/model/resolved.ts';
import { type Analysis, sourceNamed } from '../analysis.ts';
import { baseName } from '../files/uri.ts';
import { entriesOf, placeOf } from '../places.ts';
import { code, plain } from './explanation.ts';

/** null where nothing of that name was found. */
export function referenceMarkdown(analysis: Analysis, reference: Reference): string | null {
  const { kind, id, target } = reference;
  const source = target === null ? null : sourceNamed(analysis, target.file);
  if (target === null || source === null) return null;
  const value = placeOf(source.parsed, target.path)?.value;
  const facts = entriesOf(value)
    .flatMap(({ key, value: one }) =>
      one?.kind === 'scalar' && TOLD.has(key) ? [`${key} ${plain(one.text)}`] : [],
    )
    .join(', ');
  const where = target.file === null ? '' : ` (${code(baseName(target.file))})`;
  return `${kind} ${code(id)}${where}${facts === '' ? '' : `: ${facts}`}`;
}

/** Keys of a thing that tell which one it is. */
const TOLD: ReadonlySet<string> = new Set([
  'kind',
  'maker',
  'mass',
  'gear',
  'item',
  'serial',
  'channel',
  'role',
  'note',
]);
