// Gear by the thing that uses it, read from the files' trees: right also while the room is half written.

import type { Path } from '../schema/model/path.ts';
import type { Analysis, Source } from './analysis.ts';
import { entriesOf, placeOf } from './places.ts';

/** Speakers, subwoofers and devices share their names. */
const SECTIONS = ['speakers', 'subwoofers', 'devices'] as const;

export interface Thing {
  readonly id: string;
  readonly section: (typeof SECTIONS)[number];
}

export function thingsOf({ parsed }: Source): readonly Thing[] {
  return SECTIONS.flatMap((section) =>
    entriesOf(placeOf(parsed, [section])?.value).map(({ key }) => ({ id: key, section })),
  );
}

/** The gear file and the model that a speaker, subwoofer or device is; null where that is not known. */
export function gearOf(
  { source, surroundings }: Analysis,
  id: string,
): { readonly source: Source; readonly model: string } | null {
  const section = SECTIONS.find((one) => placeOf(source.parsed, [one, id]));
  if (section === undefined) return null;
  const item = textAt(source, [section, id, 'item']);
  const model =
    textAt(source, [section, id, 'gear']) ??
    (item === null || surroundings.facility === null
      ? null
      : textAt(surroundings.facility, ['items', item, 'gear']));
  if (model === null) return null;
  const file = surroundings.gear.find(({ parsed }) => placeOf(parsed, ['models', model]));
  return file ? { source: file, model } : null;
}

export function textAt({ parsed }: Source, path: Path): string | null {
  const value = placeOf(parsed, path)?.value;
  return value?.kind === 'scalar' ? value.text : null;
}
