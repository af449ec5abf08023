// Faults of keys that say the same thing in different ways: none of them is there, several, or half of one way.

import type { LocatedMap } from '../model/located.ts';
import type { Problem } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import type { SchemaError } from '../validators.generated.js';
import { type Fault, headRange } from './fault.ts';
import { problem } from './reading.ts';

export type MapFault = Fault & { readonly node: LocatedMap };

/** How messages call the map. */
export function mapName({ path, schema }: Pick<MapFault, 'path' | 'schema'>): string {
  const name = path.at(-1);
  return name === undefined ? `a ${schema.title?.toLowerCase() ?? 'file'}` : `\`${name}\``;
}

/** Whether one of the wrong keys is likely this one: then the slip is told, and not that the key is missing. */
export function isMisspelled(key: string, wrongKeys: readonly string[]): boolean {
  return wrongKeys.some((wrong) => wrong.startsWith(key) || 0 < nearNames(wrong, [key]).length);
}

/** `oneOf` says in our schemas only which keys go together: each branch lists the keys that it requires. */
export function oneOfProblem(
  error: SchemaError,
  fault: MapFault,
  wrongKeys: readonly string[],
): readonly Problem[] {
  const { node, path, schema, entry } = fault;
  const dependent = /\/dependentSchemas\/([^/]+)\/oneOf$/.exec(error.schemaPath)?.[1];
  const holder = dependent === undefined ? schema : schema.dependentSchemas?.[dependent];
  const branches = (holder?.oneOf ?? []).map(({ required = [] }) => required);
  const tags = branches.flat();
  const here = tags.filter((key) => node.entries.has(key));
  const list = branches.map((keys) => keys.map((key) => `\`${key}\``).join(' with ')).join(' or ');
  if (Array.isArray(error.params.passingSchemas)) {
    const second = here.map((key) => node.entries.get(key)).filter((one) => one !== undefined)[1];
    if (second === undefined) return [];
    return [
      problem(
        'format/one-of',
        [...path, second.key],
        second.keyRange,
        `only one of ${list} may be here`,
      ),
    ];
  }
  const partly = branches.find((keys) => keys.some((key) => node.entries.has(key)));
  if (partly !== undefined) {
    const missing = partly.filter((key) => !node.entries.has(key) && !isMisspelled(key, wrongKeys));
    if (missing.length === 0) return [];
    const names = missing.map((key) => `\`${key}\``).join(' and ');
    return [
      problem(
        'format/missing-key',
        path,
        headRange(node, entry),
        `${names} ${missing.length === 1 ? 'is' : 'are'} missing from ${mapName(fault)}`,
      ),
    ];
  }
  if (tags.some((key) => isMisspelled(key, wrongKeys))) return [];
  return [
    problem(
      'format/one-of',
      path,
      headRange(node, entry),
      `${list} is missing from ${mapName(fault)}`,
    ),
  ];
}
