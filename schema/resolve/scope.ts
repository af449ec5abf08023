// The scope of a room: every name that its references may mean, and where each is defined.

import type { Path } from '../model/path.ts';
import type { NamedFile, ResolveContext } from '../model/resolved.ts';
import { type GearLibrary, gearLibrary } from './gearLibrary.ts';
import { below, entriesOf, mapOf, type Place, rootPlace } from './place.ts';
import type { Reading } from './reading.ts';
import { type Names, userNames } from './referTo.ts';
import { readUsers, SECTIONS, type User } from './users.ts';

export interface Scope {
  readonly context: ResolveContext;
  readonly library: GearLibrary;
  readonly facility: { readonly file: NamedFile; readonly root: Place } | null;
  /** Speakers, subwoofers and devices by their ids. */
  readonly users: ReadonlyMap<string, User>;
  /** The same as names that a word may mean: all of them, and section by section. */
  readonly userNames: {
    readonly any: Names;
    readonly speakers: Names;
    readonly subwoofers: Names;
    readonly sources: Names;
  };
  readonly seats: ReadonlyMap<string, Path>;
  readonly sets: ReadonlyMap<string, Path>;
  readonly fixtures: ReadonlyMap<string, Path>;
  /** Walls by their names; a box's walls are defined nowhere in the file. */
  readonly walls: ReadonlyMap<string, Path | null>;
}

const BOX_WALLS: readonly string[] = ['front', 'right', 'back', 'left'];

export function roomScope(reading: Reading, root: Place, context: ResolveContext): Scope {
  const library = gearLibrary(context.gear);
  const facility =
    context.facility === null
      ? null
      : { file: context.facility, root: rootPlace(context.facility.parsed.root) };
  const space = below(root, 'space');
  const plan = below(space, 'plan');
  const users = readUsers(reading, root, library, facility);
  return {
    context,
    library,
    facility,
    users,
    userNames: {
      any: userNames(users, SECTIONS),
      speakers: userNames(users, ['speakers']),
      subwoofers: userNames(users, ['subwoofers']),
      sources: userNames(users, ['speakers', 'subwoofers']),
    },
    seats: pathsOf(below(root, 'seats')),
    sets: pathsOf(below(root, 'sets')),
    fixtures: pathsOf(below(space, 'fixtures')),
    walls: mapOf(plan) === null ? new Map(BOX_WALLS.map((wall) => [wall, null])) : pathsOf(plan),
  };
}

function pathsOf(place: Place): ReadonlyMap<string, Path> {
  return new Map(entriesOf(place).map(({ name, path }) => [name, path]));
}
