// All rooms of a facility together: a single thing cannot be in two rooms at once.

import type { ParsedFile } from '../model/parsedFile.ts';
import type { Problem } from '../model/problem.ts';
import type { NamedFile } from '../model/resolved.ts';
import { below, entriesOf, type NamedPlace, type Place, rootPlace, textOf } from './place.ts';
import { SECTIONS } from './users.ts';

interface ItemUse {
  readonly file: string;
  readonly roomName: string;
  readonly user: NamedPlace;
  readonly item: Place;
}

/**
 * @param rooms all room files of one facility, each under its name
 * @returns for each room file that has any, the problems that lie in it: an item that another room has too
 */
export function checkFacilityRooms(
  rooms: readonly NamedFile[],
): ReadonlyMap<string, readonly Problem[]> {
  const uses = new Map<string, ItemUse[]>();
  for (const { file, parsed } of rooms)
    for (const use of usesIn(file, parsed)) {
      const id = textOf(use.item) ?? '';
      uses.set(id, [...(uses.get(id) ?? []), use]);
    }
  const problems = new Map<string, Problem[]>();
  for (const [item, all] of uses)
    for (const use of all) {
      const elsewhere = all.filter(({ file }) => file !== use.file);
      if (elsewhere.length === 0) continue;
      const told = problems.get(use.file) ?? [];
      problems.set(use.file, [...told, problemOf(item, use, elsewhere)]);
    }
  return problems;
}

function usesIn(file: string, parsed: ParsedFile): readonly ItemUse[] {
  const root = rootPlace(parsed.root);
  const roomName = textOf(below(root, 'name')) ?? file;
  return SECTIONS.flatMap((section) => entriesOf(below(root, section)))
    .map((user) => ({ file, roomName, user, item: below(user, 'item') }))
    .filter(({ item }) => textOf(item) !== null);
}

function problemOf(item: string, use: ItemUse, elsewhere: readonly ItemUse[]): Problem {
  const rooms = [...new Set(elsewhere.map(({ roomName }) => roomName))];
  return {
    code: 'reference/item-in-two-rooms',
    severity: 'warning',
    path: use.item.path,
    range: use.item.value?.range ?? use.user.key,
    message: `\`${item}\` is a single thing and is in use in ${rooms.join(' and in ')} too`,
    fixes: [],
    related: elsewhere.map(({ file, user, roomName }) => ({
      file,
      path: user.path,
      message: `\`${user.name}\` in ${roomName}`,
    })),
  };
}
