// Holds a part of the tree against its schema, and tells each fault once, in the words of the format.

import { branchOf, stepInto } from '../describe.ts';
import type { Located, LocatedEntry } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import type { SchemaError, Validator } from '../validators.generated.js';
import type { Fault } from './fault.ts';
import { keyProblems } from './keyProblems.ts';
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
  const data = visit(node, schema, path, reading);
  if (validator(data)) return;
  tellFaults(validator.errors ?? [], { node, entry, schema, path }, reading);
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
    const fault = faultAt(pointer, list, start);
    if (fault === null) continue;
    const { problems, keys } = tellFault(fault, reading);
    reading.problems.push(...problems);
    closed.push(...keys.map((key) => `${pointer}/${escapePointer(key)}`));
  }
}

function tellFault(
  fault: Fault,
  reading: Reading,
): { problems: readonly Problem[]; keys: readonly string[] } {
  const value = valueProblem(fault);
  if (value !== null) return { problems: [value], keys: [] };
  if (fault.node.kind !== 'map') return { problems: [], keys: [] };
  return keyProblems({ ...fault, node: fault.node }, reading.damaged.has(fault.node));
}

/** Follows a JSON pointer through the tree and the schema. */
function faultAt(pointer: string, errors: readonly SchemaError[], start: Start): Fault | null {
  let { node, entry, schema } = start;
  const path = [...start.path];
  for (const step of pointer.split('/').slice(1)) {
    const key = step.replaceAll('~1', '/').replaceAll('~0', '~');
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
