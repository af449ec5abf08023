// The names that walls, surfaces and what a thing can stand on have in one room.

import type { Path } from '../model/path.ts';
import type { Names } from './referTo.ts';
import type { Scope } from './scope.ts';

export function wallNames({ walls }: Scope): Names {
  return {
    code: 'reference/wall',
    kind: 'wall',
    lead: 'No wall is called',
    plural: 'walls',
    known: walls,
  };
}

/** The walls, the floor and the ceiling. */
export function surfaceNames({ walls }: Scope): Names {
  return {
    code: 'reference/wall',
    kind: 'wall',
    lead: 'No surface is called',
    plural: 'surfaces',
    known: new Map<string, Path | null>([...walls, ['floor', null], ['ceiling', null]]),
  };
}

/** Fixtures and surfaces. */
export function standNames(scope: Scope): Names {
  return {
    code: 'reference/fixture',
    kind: 'fixture',
    lead: 'No fixture or surface is called',
    plural: 'fixtures and surfaces',
    known: new Map([...surfaceNames(scope).known, ...scope.fixtures]),
  };
}
