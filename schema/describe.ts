// What the schemas say about a place in a file: meaning, dimension, reference, choices, keys. Hover and completion read it.

import facility from './facility.schema.json';
import gear from './gear.schema.json';
import type { Located } from './model/located.ts';
import type { FileKind } from './model/parsedFile.ts';
import type { Path } from './model/path.ts';
import quantities from './quantities.schema.json';
import type { QuantityRule } from './quantity/quantity.ts';
import { type ResolvedSchema, resolveSchemas } from './resolveSchemas.ts';
import room from './room.schema.json';
import settings from './settings.schema.json';
import shared from './shared.schema.json';

const SCHEMAS: ReadonlyMap<string, ResolvedSchema> = resolveSchemas(
  new Map<string, unknown>([
    ['room.schema.json', room],
    ['gear.schema.json', gear],
    ['facility.schema.json', facility],
    ['settings.schema.json', settings],
    ['shared.schema.json', shared],
    ['quantities.schema.json', quantities],
  ]),
);

/** A place in a file, as the schema sees it. */
export interface Place {
  /** All `$ref`s followed; what stands beside a `$ref` wins. */
  readonly schema: ResolvedSchema;
  /** Inside an alternative's `change`: nothing is required, and `absent` takes a thing away. */
  readonly overlay: boolean;
}

/** The schema of a whole file of this kind. */
export function rootSchema(kind: FileKind): ResolvedSchema {
  const schema = SCHEMAS.get(`${kind}.schema.json`);
  if (schema === undefined) throw new RangeError(`no schema for ${kind}`);
  return schema;
}

/**
 * What applies at a path.
 *
 * @param root the file's tree, if at hand: where the shape depends on a tag (`kind: panel`), it decides; without it, all shapes
 * are taken together
 * @returns null where the format knows no such place, and inside `x_…` keys
 */
export function schemaAt(kind: FileKind, path: Path, root: Located | null = null): Place | null {
  let place: Place = { schema: rootSchema(kind), overlay: false };
  let node: Located | null = root;
  for (const key of path) {
    const schema = branchOf(place.schema, node);
    const next = stepInto(schema, key);
    if (next === null) return null;
    node = childOf(node, key);
    place =
      next.overlay === true
        ? { schema: overlayRoot(next), overlay: true }
        : { schema: next, overlay: place.overlay };
  }
  return { ...place, schema: branchOf(place.schema, node) };
}

/** The schema of one step down: by key in a map, by position in a list. Null where there is none. */
export function stepInto(schema: ResolvedSchema, key: string): ResolvedSchema | null {
  if (schema.items !== undefined && /^\d+$/.test(key)) return schema.items;
  if (key.startsWith('x_')) return null;
  const own = Object.hasOwn(schema.properties ?? {}, key) ? schema.properties?.[key] : undefined;
  if (own !== undefined) return own;
  const { additionalProperties } = schema;
  return typeof additionalProperties === 'object' ? additionalProperties : null;
}

/** Where the shape depends on a tag's value: the shape that the node's tag chooses, else all shapes taken together. */
export function branchOf(schema: ResolvedSchema, node: Located | null): ResolvedSchema {
  const tag = schema.discriminator?.propertyName;
  if (tag === undefined || schema.oneOf === undefined) return schema;
  const value = childOf(node, tag);
  const chosen = schema.oneOf.find(
    (branch) => value?.kind === 'scalar' && branch.properties?.[tag]?.const === value.text,
  );
  return chosen ?? mergeBranches(schema, schema.oneOf, tag);
}

function mergeBranches(
  schema: ResolvedSchema,
  branches: readonly ResolvedSchema[],
  tag: string,
): ResolvedSchema {
  const properties = Object.assign({}, ...branches.map((branch) => branch.properties ?? {}));
  const choices = branches.map((branch) => branch.properties?.[tag]?.const);
  properties[tag] = { enum: choices, description: `Which kind it is.` };
  const { oneOf: _, discriminator: __, ...rest } = schema;
  return { ...rest, properties, additionalProperties: false };
}

function overlayRoot(change: ResolvedSchema): ResolvedSchema {
  const allowed = new Set(change.propertyNames?.enum ?? []);
  const { properties = {} } = rootSchema('room');
  return {
    ...change,
    properties: Object.fromEntries(Object.entries(properties).filter(([key]) => allowed.has(key))),
    additionalProperties: false,
  };
}

function childOf(node: Located | null, key: string): Located | null {
  if (node?.kind === 'map') return node.entries.get(key)?.value ?? null;
  if (node?.kind === 'list') return node.items[Number(key)] ?? null;
  return null;
}

/** What a schema says about a quantity, or null where none is taken. */
export function quantityRule(schema: ResolvedSchema): QuantityRule | null {
  const { quantity } = schema;
  return quantity === undefined ? null : { ...schema, quantity };
}

/** The kinds of thing that a value here refers to: `seat`, `gear`, `port` … */
export function referenceKinds({ reference }: ResolvedSchema): readonly string[] {
  if (reference === undefined) return [];
  return typeof reference === 'string' ? [reference] : reference;
}

/** The words that may stand here: an enum's choices, `bypass`, `unknown` where it may stand. */
export function wordsAt(schema: ResolvedSchema): readonly string[] {
  const choices = schema.enum?.filter((value) => typeof value === 'string') ?? [];
  const constant = schema.const === undefined ? [] : [String(schema.const)];
  const words = [...constant, ...choices, ...(schema.words ?? [])];
  return allowsUnknown(schema) && !words.includes('unknown') ? [...words, 'unknown'] : words;
}

/** Whether `unknown` may stand here. */
export function allowsUnknown(schema: ResolvedSchema): boolean {
  return (
    (schema.quantity !== undefined && schema.key !== true) ||
    schema.reference !== undefined ||
    schema.words !== undefined ||
    schema.format === 'date' ||
    schema.pattern?.includes('unknown') === true ||
    schema.enum?.includes('unknown') === true
  );
}

/** Whether the value is text for people, which our edits always write in quotes. */
export function isProse(schema: ResolvedSchema): boolean {
  return schema.prose === true;
}
