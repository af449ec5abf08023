// One reference by name: recorded with its target, and told at the word where nothing has that name.

import type { Range } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Reference, ReferenceKind } from '../model/resolved.ts';
import { wordIn } from './arrow.ts';
import { type Place, textOf } from './place.ts';
import { isFaulty, type Reading, refer, tellAt } from './reading.ts';
import { unknownName } from './unknownName.ts';
import type { Section, User } from './users.ts';

export interface Names {
  readonly code: string;
  readonly kind: ReferenceKind;
  /** "No seat is called" */
  readonly lead: string;
  readonly plural: string;
  /** Names with the path of their definition in this file; null for names that no line defines. */
  readonly known: ReadonlyMap<string, Path | null>;
}

/** The name that a scalar gives, if something has it; null otherwise. */
export function referTo(reading: Reading, place: Place, names: Names): string | null {
  const id = isFaulty(reading, place.path) ? null : textOf(place);
  if (id === null || place.value?.kind !== 'scalar') return null;
  const { range } = wordIn(place.value, reading.file.text, 0, id);
  return referWord(reading, { id, range, path: place.path }, names) ? id : null;
}

/** A reference by a key, as in `settings: { sub: … }`. */
export function referByKey(
  reading: Reading,
  place: Place & { readonly name: string; readonly key: Range },
  names: Names,
): boolean {
  return referWord(
    reading,
    { id: place.name, range: keyWord(reading, place), path: place.path },
    names,
  );
}

export function referWord(
  reading: Reading,
  word: { readonly id: string; readonly range: Range; readonly path: Path },
  names: Names,
): boolean {
  const path = names.known.get(word.id);
  const target: Reference['target'] =
    path === undefined || path === null ? null : { file: null, path };
  refer(reading, names.kind, word, target);
  if (path !== undefined) return true;
  tellAt(reading, word.path, word.range, () =>
    unknownName({
      code: names.code,
      lead: names.lead,
      name: word.id,
      range: word.range,
      known: [...names.known.keys()],
      plural: names.plural,
    }),
  );
  return false;
}

/** Speakers, subwoofers and devices as names: those of some sections. */
export function userNames(users: ReadonlyMap<string, User>, sections: readonly Section[]): Names {
  const known = new Map<string, Path>();
  for (const [id, { section, place }] of users)
    if (sections.includes(section)) known.set(id, place.path);
  const singular = listOf(
    sections.map((section) => section.slice(0, -1)),
    'or',
  );
  const [only, another] = sections;
  return {
    code:
      only !== undefined && another === undefined ? `reference/${singular}` : 'reference/device',
    kind: sections.includes('devices') ? 'device' : 'speaker',
    lead: `No ${singular} is called`,
    plural: listOf(sections, 'and'),
    known,
  };
}

function listOf(words: readonly string[], joint: 'and' | 'or'): string {
  const last = words.at(-1) ?? '';
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} ${joint} ${last}`;
}

/** A key's own letters, without quotes around them. */
function keyWord(reading: Reading, { name, key }: { name: string; key: Range }): Range {
  const quoted = key.end - key.start === name.length + 2;
  return quoted && reading.file.text.startsWith(name, key.start + 1)
    ? { start: key.start + 1, end: key.end - 1 }
    : key;
}
