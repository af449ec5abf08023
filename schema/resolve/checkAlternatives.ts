// Alternatives name what there is: their overlays are looked at as the room that they would make.

import type { Path } from '../model/path.ts';
import type { Reference, ReferenceKind } from '../model/resolved.ts';
import { alternativeFile, isInside } from './alternativeFile.ts';
import {
  below,
  belowAll,
  entriesOf,
  mapOf,
  type NamedPlace,
  type Place,
  rootPlace,
  textOf,
} from './place.ts';
import { type Reading, refer, startReading, tellAt } from './reading.ts';
import { readPart } from './readRoom.ts';
import { roomScope, type Scope } from './scope.ts';
import { unknownName } from './unknownName.ts';

/** Adds what is wrong inside the overlays, and what their words refer to, under the overlays' own paths. */
export function checkAlternatives(reading: Reading, root: Place, scope: Scope): void {
  for (const alternative of entriesOf(below(root, 'alternatives'))) {
    const change = below(alternative, 'change');
    for (const section of NAMED) checkNames(reading, root, change, section);
    const file = alternativeFile(reading.file, alternative);
    if (file === null) continue;
    const inner = startReading(file, reading.defaultSampleRate_hz);
    const innerRoot = rootPlace(file.root);
    const innerScope = roomScope(inner, innerRoot, scope.context);
    for (const part of entriesOf(change)) readPart(inner, innerRoot, innerScope, part.name);
    const outward = (path: Path): Path => [...change.path, ...path];
    for (const problem of inner.problems)
      if (isInside(alternative, problem))
        reading.problems.push({ ...problem, path: outward(problem.path) });
    for (const reference of inner.references)
      if (isInside(alternative, reference))
        reading.references.push({
          ...reference,
          path: outward(reference.path),
          target: targetOf(reference, root, outward),
        });
  }
}

/** What an alternative adds is defined in the alternative. */
function targetOf(
  { target }: Reference,
  root: Place,
  outward: (path: Path) => Path,
): Reference['target'] {
  if (target === null || target.file !== null) return target;
  return belowAll(root, target.path).key === null
    ? { file: null, path: outward(target.path) }
    : target;
}

interface NamedSection {
  readonly path: Path;
  readonly kind: ReferenceKind;
  readonly singular: string;
  /** One of these is there if the thing is new, not a change of one that is there. */
  readonly whole: readonly string[];
}

const NAMED: readonly NamedSection[] = [
  { path: ['seats'], kind: 'seat', singular: 'seat', whole: ['at'] },
  { path: ['speakers'], kind: 'speaker', singular: 'speaker', whole: ['gear', 'item'] },
  { path: ['subwoofers'], kind: 'speaker', singular: 'subwoofer', whole: ['gear', 'item'] },
  { path: ['devices'], kind: 'device', singular: 'device', whole: ['gear', 'item'] },
  { path: ['sets'], kind: 'set', singular: 'set', whole: ['speakers'] },
  { path: ['circuits'], kind: 'device', singular: 'circuit', whole: ['feeds'] },
  { path: ['space', 'fixtures'], kind: 'fixture', singular: 'fixture', whole: ['kind'] },
];

function checkNames(
  reading: Reading,
  root: Place,
  change: Place,
  { path, kind, singular, whole }: NamedSection,
): void {
  const there = belowAll(root, path);
  const known = entriesOf(there);
  for (const entry of entriesOf(belowAll(change, path))) {
    const found = known.find(({ name }) => name === entry.name);
    if (found !== undefined) {
      if (singular !== 'circuit')
        refer(
          reading,
          kind,
          { id: entry.name, range: entry.key, path: entry.path },
          { file: null, path: found.path },
        );
    } else if (textOf(entry) === 'absent' || !isWhole(entry, whole)) {
      const told = () =>
        unknownName({
          code: 'reference/alternative',
          lead: `There is no ${singular} to change called`,
          name: entry.name,
          range: entry.key,
          known: known.map(({ name }) => name),
          plural: `${singular}s`,
        });
      tellAt(reading, entry.path, entry.key, told);
    }
  }
}

function isWhole(entry: NamedPlace, whole: readonly string[]): boolean {
  return whole.some((key) => mapOf(entry)?.entries.has(key) ?? false);
}
