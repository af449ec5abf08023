// Lays an alternative's changes over a room: the same tree, in which each value keeps its own place in the file.

import { stepInto } from './describe.ts';
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
  const under = base?.kind === 'map' ? base : null;
  const entries = new Map<string, LocatedEntry>(under?.entries);
  for (const key of replacedKeys(under, change, schema)) entries.delete(key);
  for (const [key, entry] of change.entries) {
    const old = under?.entries.get(key)?.value ?? null;
    const value = entry.value && overlay(old, entry.value, schema && stepInto(schema, key));
    if (value === null && entry.value !== null) entries.delete(key);
    else entries.set(key, { ...entry, value });
  }
  return { ...change, entries };
}

function isAbsent(node: Located): boolean {
  return node.kind === 'scalar' && node.style === 'plain' && node.text === 'absent';
}

/** Of keys that say the same thing in different ways (`material`, `absorption`), those of the ways that the change does not take. */
function replacedKeys(
  base: LocatedMap | null,
  change: LocatedMap,
  schema: ResolvedSchema | null,
): readonly string[] {
  if (base === null || schema?.oneOf === undefined || schema.discriminator !== undefined) return [];
  const ways = schema.oneOf.map(({ required = [] }) => required);
  const taken = ways.find((keys) => keys.some((key) => change.entries.has(key)));
  if (taken === undefined) return [];
  return ways.flat().filter((key) => !taken.includes(key));
}
