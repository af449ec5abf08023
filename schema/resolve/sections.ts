// Sections of a room file, each read again only where it says something else, or where the names that it may use are others.

import type { Located } from '../model/located.ts';
import type { Problem } from '../model/problem.ts';
import type { Gap } from '../model/quantities.ts';
import type { Reference } from '../model/resolved.ts';
import { type Moves, moved, movesBetween } from './moves.ts';
import type { Place } from './place.ts';
import type { Reading } from './reading.ts';
import type { Scope } from './scope.ts';

/** Reads one section into a reading, or tells again what reading it came to. */
export type ReadSection = <Answer>(
  reading: Reading,
  section: Place,
  read: (reading: Reading, section: Place) => Answer,
) => Answer;

/** Remembers nothing. */
export const readAnew: ReadSection = (reading, section, read) => read(reading, section);

export interface Sections {
  /** For one version of the file, whose errors and whose gear and facility are those of the version before. */
  readonly within: (scope: Scope) => ReadSection;
  /** Nothing that was read may be told again. */
  readonly forget: () => void;
}

/** One for each file. */
export function createSections(): Sections {
  const known = new Map<string, Known>();
  let names = '';
  return {
    within(scope) {
      const namesNow = namesOf(scope);
      if (namesNow !== names) known.clear();
      names = namesNow;
      return (reading, section, read) => {
        const { value } = section;
        if (value === null) return read(reading, section);
        const key = section.path.join('.');
        const last = known.get(key);
        const { text } = reading.file;
        const moves = last ? movesBetween(last, { root: value, text }) : null;
        const told =
          (last && moves && movedTold(last.told, moves)) ?? toldBy(reading, section, read);
        known.set(key, { root: value, text, told });
        addTold(reading, told);
        return told.answer as ReturnType<typeof read>; // Each section has one reader.
      };
    },
    forget: () => known.clear(),
  };
}

interface Known {
  readonly root: Located;
  /** Of the whole file. */
  readonly text: string;
  readonly told: Told;
}

/** All that reading a section came to. */
interface Told {
  readonly answer: unknown;
  readonly problems: readonly Problem[];
  readonly references: readonly Reference[];
  readonly gaps: readonly Gap[];
  readonly plusMinus: Readonly<Record<string, number>>;
  readonly unitCounts: ReadonlyMap<string, number>;
}

function toldBy<Answer>(
  reading: Reading,
  section: Place,
  read: (reading: Reading, section: Place) => Answer,
): Told {
  const own: Reading = {
    ...reading,
    problems: [],
    references: [],
    gaps: [],
    plusMinus: {},
    unitCounts: new Map(),
  };
  return { ...own, answer: read(own, section) };
}

/** null where a place cannot be followed for certain. */
function movedTold(told: Told, moves: Moves): Told | null {
  const again = moved(told, moves);
  return again === null ? null : { ...told, ...again };
}

function addTold(reading: Reading, told: Told): void {
  for (const one of told.problems) reading.problems.push(one);
  for (const one of told.references) reading.references.push(one);
  for (const one of told.gaps) reading.gaps.push(one);
  Object.assign(reading.plusMinus, told.plusMinus);
  for (const [unit, count] of told.unitCounts)
    reading.unitCounts.set(unit, (reading.unitCounts.get(unit) ?? 0) + count);
}

/** Who there is, with which gear, and what else has a name: all that a section asks of the others. */
function namesOf({ users, seats, sets, fixtures, walls }: Scope): string {
  const who = [...users.values()].map(({ id, section, gearId, item }) => [
    id,
    section,
    gearId,
    item,
  ]);
  return JSON.stringify([who, ...[seats, sets, fixtures, walls].map((named) => [...named])]);
}
