// Speakers, subwoofers and devices: who uses which gear, by model or by item, with wrong and double names told.

import type { NamedFile } from '../model/resolved.ts';
import { wordIn } from './arrow.ts';
import type { GearLibrary, Model } from './gearLibrary.ts';
import { below, entriesOf, type NamedPlace, type Place, textOf } from './place.ts';
import { isFaulty, type Reading, recordGap, refer, tell, tellAt } from './reading.ts';
import { unknownName } from './unknownName.ts';

export type Section = 'speakers' | 'subwoofers' | 'devices';

export const SECTIONS: readonly Section[] = ['speakers', 'subwoofers', 'devices'];

/** Something that uses gear. */
export interface User {
  readonly id: string;
  readonly section: Section;
  readonly place: NamedPlace;
  readonly model: Model | null;
  /** As written, even where no such model was found. */
  readonly gearId: string | null;
  readonly item: string | null;
}

interface Facility {
  readonly file: NamedFile;
  readonly root: Place;
}

/** What is called "a speaker" and so on in a sentence. */
export const SECTION_NAMES: Readonly<Record<Section, string>> = {
  speakers: 'a speaker',
  subwoofers: 'a subwoofer',
  devices: 'a device',
};

export function readUsers(
  reading: Reading,
  root: Place,
  library: GearLibrary,
  facility: Facility | null,
): ReadonlyMap<string, User> {
  const users = new Map<string, User>();
  const items = new Map<string, NamedPlace>();
  for (const section of SECTIONS) {
    for (const place of entriesOf(below(root, section))) {
      const first = users.get(place.name);
      if (first !== undefined) tellDouble(reading, place, first);
      else users.set(place.name, readUser(reading, place, section, library, facility, items));
    }
  }
  return users;
}

function tellDouble(reading: Reading, place: NamedPlace, first: User): void {
  tellAt(reading, place.path, place.key, {
    code: 'reference/name-twice',
    message: `\`${place.name}\` is ${SECTION_NAMES[first.section]} already; speakers, subwoofers and devices share their names`,
    related: [{ path: first.place.path, message: `the first \`${place.name}\`` }],
  });
}

function readUser(
  reading: Reading,
  place: NamedPlace,
  section: Section,
  library: GearLibrary,
  facility: Facility | null,
  items: Map<string, NamedPlace>,
): User {
  const byItem = below(place, 'item');
  const common = { id: place.name, section, place };
  if (byItem.key !== null) {
    const item = textOf(byItem);
    const gearId = item === null ? null : itemGear(reading, byItem, item, facility);
    if (item === null) recordGap(reading, byItem);
    else tellItemTwice(reading, place, byItem, item, items);
    return {
      ...common,
      item,
      gearId,
      model: gearId === null ? null : (library.get(gearId) ?? null),
    };
  }
  const gear = below(place, 'gear');
  const gearId = isFaulty(reading, gear.path) ? null : textOf(gear);
  if (gearId === null) recordGap(reading, gear);
  return {
    ...common,
    item: null,
    gearId,
    model: gearId === null ? null : modelOf(reading, gear, gearId, library),
  };
}

/** The model that a `gear:` names; one that is not there is told at the word. */
export function modelOf(
  reading: Reading,
  place: Place,
  id: string,
  library: GearLibrary,
): Model | null {
  const model = library.get(id) ?? null;
  const range = wordRange(reading, place, id);
  if (range === null) return model;
  const target = model === null ? null : { file: model.file, path: model.place.path };
  refer(reading, 'gear', { id, range, path: place.path }, target);
  if (model === null) {
    tellAt(reading, place.path, range, () =>
      unknownName({
        code: 'reference/gear',
        lead: 'No gear model is called',
        name: id,
        range,
        known: [...library.keys()],
        plural: 'gear models',
      }),
    );
    recordGap(reading, place);
  }
  return model;
}

function itemGear(
  reading: Reading,
  place: Place,
  item: string,
  facility: Facility | null,
): string | null {
  const range = wordRange(reading, place, item);
  if (range === null) return null;
  if (facility === null) {
    refer(reading, 'item', { id: item, range, path: place.path }, null);
    tell(reading, place, {
      code: 'reference/item',
      message: `\`${item}\` cannot be looked up: no facility.yaml was found above this room`,
    });
    recordGap(reading, place);
    return null;
  }
  const items = below(facility.root, 'items');
  const found = below(items, item);
  const target = found.key === null ? null : { file: facility.file.file, path: found.path };
  refer(reading, 'item', { id: item, range, path: place.path }, target);
  if (found.key !== null) return textOf(below(found, 'gear'));
  tellAt(reading, place.path, range, () =>
    unknownName({
      code: 'reference/item',
      lead: 'The facility has no item called',
      name: item,
      range,
      known: entriesOf(items).map(({ name }) => name),
      plural: 'items',
    }),
  );
  recordGap(reading, place);
  return null;
}

function tellItemTwice(
  reading: Reading,
  user: NamedPlace,
  place: Place,
  item: string,
  items: Map<string, NamedPlace>,
): void {
  const first = items.get(item);
  if (first === undefined) {
    items.set(item, user);
    return;
  }
  tell(reading, place, {
    code: 'reference/item-twice',
    message: `\`${item}\` is a single thing and is \`${first.name}\` already`,
    related: [{ path: first.path, message: `\`${first.name}\` is this item` }],
  });
}

function wordRange(reading: Reading, place: Place, word: string) {
  return place.value?.kind === 'scalar'
    ? wordIn(place.value, reading.file.text, 0, word).range
    : null;
}
