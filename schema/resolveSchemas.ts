// Follows every `$ref` of the schemas once, so that readers see plain nested records.

import type { Dimension } from './quantity/units.ts';

/** The part of JSON Schema 2020-12 that our schemas use, and our own keywords. */
export interface ResolvedSchema {
  readonly type?: string | readonly string[];
  readonly title?: string;
  readonly description?: string;
  readonly examples?: readonly unknown[];
  readonly const?: unknown;
  readonly enum?: readonly unknown[];
  readonly pattern?: string;
  readonly format?: string;
  readonly minimum?: number;
  readonly maximum?: number;
  readonly exclusiveMinimum?: number;
  readonly minLength?: number;
  readonly maxLength?: number;
  readonly properties?: Readonly<Record<string, ResolvedSchema>>;
  readonly required?: readonly string[];
  readonly propertyNames?: ResolvedSchema;
  readonly patternProperties?: Readonly<Record<string, unknown>>;
  readonly additionalProperties?: boolean | ResolvedSchema;
  readonly minProperties?: number;
  readonly maxProperties?: number;
  readonly items?: ResolvedSchema;
  readonly minItems?: number;
  readonly maxItems?: number;
  readonly uniqueItems?: boolean;
  readonly oneOf?: readonly ResolvedSchema[];
  readonly discriminator?: { readonly propertyName: string };
  readonly dependentRequired?: Readonly<Record<string, readonly string[]>>;
  readonly dependentSchemas?: Readonly<Record<string, ResolvedSchema>>;
  readonly not?: ResolvedSchema;
  // Our own keywords.
  /** The dimension, or the dimensions, that a quantity here may have. */
  readonly quantity?: Dimension | readonly Dimension[];
  readonly least?: string;
  readonly above?: string;
  readonly most?: string;
  readonly key?: true;
  /** Words that may stand in place of a quantity or a map. */
  readonly words?: readonly string[];
  /** What sizes are usual, in words. */
  readonly typical?: string;
  /** The kind, or kinds, of thing that a value refers to. */
  readonly reference?: string | readonly string[];
  /** The kind of thing that the keys of a map refer to. */
  readonly keyReference?: string;
  /** The kind of thing that the keys of a map give a name to. */
  readonly defines?: string;
  /** The kind of thing that the items of a list give a name to. */
  readonly definesItems?: string;
  /** `a.b -> c.d`: a `wire` between two ports, or a `path` through stages. */
  readonly arrow?: 'wire' | 'path';
  /** Text for people. */
  readonly prose?: true;
  readonly fingerprint?: true;
  /** The value has the shape of a whole room file, of which nothing is required. */
  readonly overlay?: boolean;
}

/**
 * @param files the schemas by file name, as they were read
 * @returns the same, each `$ref` replaced by what it names; a schema that is referred to from many places is one shared record
 */
export function resolveSchemas(
  files: ReadonlyMap<string, unknown>,
): ReadonlyMap<string, ResolvedSchema> {
  const done = new Map<string, unknown>();

  function follow(reference: string, file: string): unknown {
    const [name, pointer = ''] = reference.split('#');
    const target = name === undefined || name === '' ? file : name;
    const id = `${target}#${pointer}`;
    if (!done.has(id)) {
      let found: unknown = files.get(target);
      for (const step of pointer.split('/').slice(1)) found = isRecord(found) ? found[step] : null;
      if (!isRecord(found)) throw new RangeError(`${file}: no schema at ${reference}`);
      done.set(id, expand(found, target));
    }
    return done.get(id);
  }

  function expand(value: unknown, file: string): unknown {
    if (Array.isArray(value)) return value.map((item) => expand(item, file));
    if (!isRecord(value)) return value;
    const { $ref, $defs: _, ...own } = value;
    const entries = Object.entries(own).map(([key, inner]) => [
      key,
      key === 'examples' ? inner : expand(inner, file),
    ]);
    const expanded: unknown = Object.fromEntries(entries);
    if (typeof $ref !== 'string') return expanded;
    const target = follow($ref, file);
    if (entries.length === 0) return target;
    return Object.assign({}, target, expanded);
  }

  return new Map(
    [...files].map(([name, schema]) => [name, expand(schema, name) as ResolvedSchema]),
  );
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
