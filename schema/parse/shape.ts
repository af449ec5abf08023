// Holds a part of the tree against its schema, and tells each fault once, in the words of the format.

import { branchOf, stepInto } from '../describe.ts';
import type { Located, LocatedEntry } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import type { SchemaError, Validator } from '../validators.generated.js';
import type { Fault } from './fault.ts';
import { keyProblems, misspelledKey } from './keyProblems.ts';
import type { Reading } from './reading.ts';
import { valueProblem } from './valueProblems.ts';
import { visit } from './visit.ts';

/**
 * @param node what is looked at, at `path`, under `entry`
 * @param validator what the schema was compiled to
 * @param reading takes the problems; what is damaged there is not complained about again
 */
export function checkShape(
  node: Located,
  entry: LocatedEntry | null,
  schema: ResolvedSchema,
  path: Path,
  validator: Validator,
  reading: Reading,
): void {
  const before = reading.problems.length;
  const data = visit(node, schema, path, reading);
  if (!validator(data)) {
    tellFaults(validator.errors ?? [], { node, entry, schema, path }, reading);
  }
  const told = reading.problems.splice(before);
  reading.problems.push(...told.filter((one) => !isHeld(one, reading)));
}

/** What a schema says where the text could not be read for certain may come of that. */
function isHeld({ range }: Problem, { holds }: Reading): boolean {
  return holds.some(
    (hold) => hold.whole || (range.start < hold.range.end && hold.range.start < range.end),
  );
}

interface Start {
  readonly node: Located;
  readonly entry: LocatedEntry | null;
  readonly schema: ResolvedSchema;
  readonly path: Path;
}

function tellFaults(errors: readonly SchemaError[], start: Start, reading: Reading): void {
  const byPlace = new Map<string, SchemaError[]>();
  for (const error of errors) {
    if (error.propertyName !== undefined) continue; // what is wrong with a key is told with the key
    const list = byPlace.get(error.instancePath);
    if (list === undefined) byPlace.set(error.instancePath, [error]);
    else list.push(error);
  }
  const closed: string[] = [];
  const places = [...byPlace].sort(([a], [b]) => a.length - b.length);
  for (const [pointer, list] of places) {
    if (closed.some((place) => pointer === place || pointer.startsWith(`${place}/`))) continue;
    const slip = slipOnTheWay(pointer, start);
    const { problems, places: done } = slip ?? tellAt(pointer, list, start, reading);
    reading.problems.push(...problems);
    closed.push(...done);
  }
}

interface Told {
  readonly problems: readonly Problem[];
  /** Pointers of places about which, and below which, nothing more is to be said. */
  readonly places: readonly string[];
}

function tellAt(
  pointer: string,
  errors: readonly SchemaError[],
  start: Start,
  reading: Reading,
): Told {
  const fault = faultAt(pointer, errors, start);
  if (fault === null) return { problems: [], places: [] };
  if (isDamaged(fault.node, reading) && fault.node.kind !== 'map')
    return { problems: [], places: [] };
  const value = valueProblem(fault, reading);
  if (value !== null) {
    const isList = fault.node.kind === 'list'; // its items are no longer what they were meant to be
    return { problems: [value], places: isList ? [pointer] : [] };
  }
  if (fault.node.kind !== 'map') return { problems: [], places: [] };
  const { problems, keys } = keyProblems(
    { ...fault, node: fault.node },
    isDamaged(fault.node, reading),
  );
  return { problems, places: keys.map((key) => `${pointer}/${escapePointer(key)}`) };
}

/** Something in it could not be read for certain, so nothing is missing from it for certain. */
function isDamaged(node: Located, { damaged, holds }: Reading): boolean {
  const { start, end } = node.range;
  return damaged.has(node) || holds.some(({ range }) => start < range.end && range.start < end);
}

/**
 * On the way to a fault, a key that may be any name but is a slip away from one that means something (`crossovr: { … }` among
 * settings): then the slip is the fault, and not what it leads to.
 */
function slipOnTheWay(pointer: string, start: Start): Told | null {
  let { node, schema } = start;
  const path = [...start.path];
  let place = '';
  for (const step of pointer.split('/').slice(1)) {
    if (node.kind !== 'map') return null;
    const key = readPointer(step);
    const branch = branchOf(schema, node);
    const below = stepInto(branch, key);
    const entry = node.entries.get(key);
    place += `/${step}`;
    if (below === null || entry?.value == null) return null;
    if (!Object.hasOwn(branch.properties ?? {}, key)) {
      const slip = misspelledKey(key, { path, node, schema: branch });
      if (slip !== null) return { problems: [slip], places: [place] };
    }
    node = entry.value;
    schema = below;
    path.push(key);
  }
  return null;
}

/** Follows a JSON pointer through the tree and the schema. */
function faultAt(pointer: string, errors: readonly SchemaError[], start: Start): Fault | null {
  let { node, entry, schema } = start;
  const path = [...start.path];
  for (const step of pointer.split('/').slice(1)) {
    const key = readPointer(step);
    const below = stepInto(branchOf(schema, node), key);
    const next: Located | null | undefined =
      node.kind === 'map'
        ? node.entries.get(key)?.value
        : node.kind === 'list'
          ? node.items[Number(key)]
          : null;
    if (below === null || next === null || next === undefined) return null;
    entry = node.kind === 'map' ? (node.entries.get(key) ?? null) : entry;
    node = next;
    schema = below;
    path.push(key);
  }
  return { path, node, entry, schema: branchOf(schema, node), errors };
}

function escapePointer(key: string): string {
  return key.replaceAll('~', '~0').replaceAll('/', '~1');
}

function readPointer(step: string): string {
  return step.replaceAll('~1', '/').replaceAll('~0', '~');
}
