// Names: what the word under the cursor is the name of, and everywhere that name stands. Navigation and renaming rest on it.

import type { Range } from '../schema/model/located.ts';
import type { FileKind } from '../schema/model/parsedFile.ts';
import type { Path } from '../schema/model/path.ts';
import { type Analysis, type Source, sourceNamed } from './analysis.ts';
import { nameRange, placeOf } from './places.ts';

/** A named thing: the file and the path where it is defined. */
export interface Named {
  readonly uri: string;
  readonly path: Path;
}

/** One place where a name stands. */
export interface NamePlace {
  readonly uri: string;
  readonly range: Range;
  readonly isDefinition: boolean;
}

/** The maps whose keys are names that other places refer to, by kind of file. */
export const NAMING_MAPS: Readonly<Record<FileKind, readonly string[]>> = {
  room: [
    'seats',
    'speakers',
    'subwoofers',
    'devices',
    'circuits',
    'sets',
    'cables',
    'sessions',
    'accepted',
    'alternatives',
    'listening',
  ],
  gear: ['models'],
  facility: ['policies', 'items'],
};

/** What the word at an offset names, with the word's own range; null where it is no name. */
export function nameAt(
  analysis: Analysis,
  offset: number,
): { readonly named: Named; readonly range: Range } | null {
  for (const reference of analysis.references) {
    if (!touches(reference.range, offset) || reference.target === null) continue;
    const uri = reference.target.file ?? analysis.source.uri;
    return { named: { uri, path: reference.target.path }, range: reference.range };
  }
  return definitionAt(analysis.source, offset);
}

/** Every place in these files where the name stands: its definition first, then by file and place. */
export function placesOf(analyses: readonly Analysis[], named: Named): readonly NamePlace[] {
  const places = new Map<string, NamePlace>();
  const add = (place: NamePlace): void => {
    const key = `${place.uri} ${place.range.start}`;
    if (!places.has(key)) places.set(key, place);
  };
  const definition = definitionOf(analyses, named);
  if (definition) add({ uri: named.uri, range: definition.range, isDefinition: true });
  for (const { source, references } of analyses) {
    for (const { target, range } of references) {
      if (target === null || (target.file ?? source.uri) !== named.uri) continue;
      if (samePath(target.path, named.path)) add({ uri: source.uri, range, isDefinition: false });
    }
  }
  return [...places.values()];
}

/** Where it is defined, among these files and what lies around them. */
export function definitionOf(
  analyses: readonly Analysis[],
  named: Named,
): { readonly source: Source; readonly range: Range } | null {
  for (const analysis of analyses) {
    const source = sourceNamed(analysis, named.uri);
    const range = source === null ? null : nameRange(source.parsed, named.path);
    if (source !== null && range !== null) return { source, range };
  }
  return null;
}

/** The source text of a name, its quotes left out. */
export function nameText({ parsed }: Source, range: Range): string {
  return parsed.text.slice(range.start, range.end).replace(/^(['"])(.*)\1$/s, '$2');
}

function definitionAt(
  { uri, parsed }: Source,
  offset: number,
): { readonly named: Named; readonly range: Range } | null {
  for (const section of NAMING_MAPS[parsed.kind]) {
    const map = placeOf(parsed, [section])?.value;
    if (map?.kind !== 'map') continue;
    for (const { key, keyRange } of map.entries.values())
      if (touches(keyRange, offset))
        return { named: { uri, path: [section, key] }, range: keyRange };
  }
  return parsed.kind === 'gear' ? portAt({ uri, parsed }, offset) : null;
}

/** Ports are named by the lists `inputs` and `outputs` of a gear model. */
function portAt(
  { uri, parsed }: Pick<Source, 'uri' | 'parsed'>,
  offset: number,
): { readonly named: Named; readonly range: Range } | null {
  const models = placeOf(parsed, ['models'])?.value;
  if (models?.kind !== 'map') return null;
  for (const model of models.entries.keys()) {
    for (const side of ['inputs', 'outputs']) {
      const ports = placeOf(parsed, ['models', model, side])?.value;
      if (ports?.kind !== 'list') continue;
      for (const [index, port] of ports.items.entries())
        if (port && touches(port.range, offset))
          return {
            named: { uri, path: ['models', model, side, String(index)] },
            range: port.range,
          };
    }
  }
  return null;
}

export function samePath(one: Path, other: Path): boolean {
  return one.length === other.length && one.every((key, index) => key === other[index]);
}

function touches({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}
