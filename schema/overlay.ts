// Lays an alternative's changes over a room: the same tree, in which each value keeps its own place in the file.

import { branchOf, stepInto } from './describe.ts';
import type { Located, LocatedEntry, LocatedMap } from './model/located.ts';
import type { ResolvedSchema } from './resolveSchemas.ts';

/**
 * @param base what is there; null where nothing is
 * @param change what is different; maps are laid over maps, key by key, and the value `absent` takes a key away
 * @param schema what applies to both: where keys exclude one another, a new one takes the place of the old one
 * @returns null where the change takes everything away
 */
export function overlay(
  base: Located | null,
  change: Located,
  schema: ResolvedSchema | null,
): Located | null {
  if (isAbsent(change)) return null;
  if (change.kind !== 'map') return change;
  const branch = schema && branchOf(schema, tagged(schema, change) ? change : base);
  const under = base?.kind === 'map' && !isOtherKind(schema, base, change) ? base : null;
  const entries = new Map<string, LocatedEntry>(under?.entries);
  for (const key of displacedKeys(change, branch)) entries.delete(key);
  for (const [key, entry] of change.entries) {
    const old = entries.get(key)?.value ?? null;
    const value = entry.value && overlay(old, entry.value, branch && stepInto(branch, key));
    if (value === null && entry.value !== null) entries.delete(key);
    else entries.set(key, { ...entry, value });
  }
  return { ...change, entries };
}

function isAbsent(node: Located): boolean {
  return node.kind === 'scalar' && node.style === 'plain' && node.text === 'absent';
}

function tagged(schema: ResolvedSchema, change: LocatedMap): boolean {
  const tag = schema.discriminator?.propertyName;
  return tag !== undefined && change.entries.has(tag);
}

/** A `kind: panel` over a `kind: obstacle` is another thing, and nothing of the old one is left. */
function isOtherKind(schema: ResolvedSchema | null, base: LocatedMap, change: LocatedMap): boolean {
  const tag = schema?.discriminator?.propertyName;
  if (tag === undefined || !change.entries.has(tag)) return false;
  return textOf(base, tag) !== textOf(change, tag);
}

function textOf({ entries }: LocatedMap, key: string): string | null {
  const value = entries.get(key)?.value;
  return value?.kind === 'scalar' ? value.text : null;
}

/**
 * Keys that cannot stand beside what the change brings: of the ways to say the same thing (`material`, `absorption`) those that it does
 * not take, and what goes with them only (`ceiling` goes with `plan`, so a `size` displaces both).
 */
function displacedKeys(change: LocatedMap, schema: ResolvedSchema | null): readonly string[] {
  if (schema === null || schema.discriminator !== undefined) return [];
  const dependents = Object.values(schema.dependentSchemas ?? {});
  const displaced = [schema, ...dependents].flatMap(({ oneOf = [], not }) => [
    ...otherWays(change, oneOf),
    ...otherWays(
      change,
      (not?.required ?? []).map((key) => ({ required: [key] })),
    ),
  ]);
  const followers = Object.entries(schema.dependentRequired ?? {})
    .filter(([, needed]) => needed.some((key) => displaced.includes(key)))
    .map(([key]) => key);
  return [...displaced, ...followers];
}

function otherWays(change: LocatedMap, ways: readonly ResolvedSchema[]): readonly string[] {
  const keys = ways.map(({ required = [] }) => required);
  const taken = keys.find((way) => way.some((key) => change.entries.has(key)));
  return taken === undefined ? [] : keys.flat().filter((key) => !taken.includes(key));
}
