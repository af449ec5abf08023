// Walks the located tree beside the schema: yields the plain data that the validators take, and tells what only the text shows.

import { allowsUnknown, branchOf, stepInto } from '../describe.ts';
import type {
  Located,
  LocatedEntry,
  LocatedList,
  LocatedMap,
  LocatedScalar,
} from '../model/located.ts';
import type { Path } from '../model/path.ts';
import { readQuantity } from '../quantity/read.ts';
import { isNumberLike, quoted } from '../quote.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import { fix, problem, type Reading } from './reading.ts';

/** Stands for what the validators need not look at. */
const ANYTHING = true;

/** Stands for a damaged item, so that the others keep their places. What is said about it goes unheard. */
const UNLOOKED = null;

/**
 * @param schema what applies to the node
 * @returns data without prototypes: strings as written, and numbers and truth values where the schema takes them; damaged values
 * are left out
 */
export function visit(
  node: Located,
  schema: ResolvedSchema | null,
  path: Path,
  reading: Reading,
): unknown {
  if (schema === null) return ANYTHING;
  if (node.kind === 'scalar') return visitScalar(node, schema, path, reading);
  if (node.kind === 'list') {
    const items = schema.items ?? null;
    return node.items.map((item, index) => {
      if (item !== null && !reading.damaged.has(item))
        return visit(item, items, [...path, String(index)], reading);
      if (item === null) tellEmptyItem(node, path, reading);
      return UNLOOKED;
    });
  }
  return visitMap(node, branchOf(schema, node), path, reading);
}

function visitMap(node: LocatedMap, schema: ResolvedSchema, path: Path, reading: Reading): unknown {
  if (schema.overlay === true) return overlayKeys(node);
  if (isLevelMissing(node, schema)) {
    tellLevel(node, path, reading);
    return Object.create(null);
  }
  const data: Record<string, unknown> = Object.create(null);
  for (const [key, entry] of node.entries) {
    if (key.startsWith('x_')) continue;
    const inner = [...path, key];
    const below = stepInto(schema, key);
    if (reading.damaged.has(entry)) continue;
    if (entry.value === null) {
      if (below === null) data[key] = ANYTHING;
      else tellEmpty(entry, below, inner, reading);
      continue;
    }
    if (reading.damaged.has(entry.value) && entry.value.kind === 'scalar') continue;
    if (isNull(entry.value)) {
      tellNull(entry, entry.value, below, inner, reading);
      continue;
    }
    data[key] = visit(entry.value, below, inner, reading);
  }
  if (schema.propertyNames?.quantity !== undefined)
    tellEqualKeys(node, schema.propertyNames, path, reading);
  return data;
}

/** `seats: { at: … }`: the keys are those of one seat, so its name is missing between. */
function isLevelMissing({ entries }: LocatedMap, schema: ResolvedSchema): boolean {
  const { additionalProperties: inner, defines, keyReference } = schema;
  if (typeof inner !== 'object' || (defines ?? keyReference) === undefined) return false;
  const keys = [...entries.keys()].filter((key) => !key.startsWith('x_'));
  const isOwn = (key: string): boolean => Object.hasOwn(schema.properties ?? {}, key);
  const isInner = (key: string): boolean => Object.hasOwn(inner.properties ?? {}, key);
  return (
    0 < keys.length &&
    keys.every((key) => isInner(key) && !isOwn(key)) &&
    keys.some((key) => tellsLevel(entries.get(key)?.value ?? null, inner, key))
  );
}

/** A key that is one of a record's could be the thing's name all the same, unless what it holds is no such record. */
function tellsLevel(value: Located | null, inner: ResolvedSchema, key: string): boolean {
  if (value === null) return false;
  if (value.kind !== 'map') return true;
  const below = Object.keys(inner.properties?.[key]?.properties ?? {});
  return [...value.entries.keys()].some(
    (name) => below.includes(name) && !Object.hasOwn(inner.properties ?? {}, name),
  );
}

function tellLevel(node: LocatedMap, path: Path, reading: Reading): void {
  const [first] = node.entries.values();
  if (first === undefined) return;
  const message = `a name is missing between \`${path.at(-1) ?? ''}\` and \`${first.key}\`: \`${path.at(-1) ?? ''}\` holds things by name`;
  reading.problems.push(problem('format/name-missing', path, first.keyRange, message));
}

/** What an alternative changes is looked at once it lies over the room; here only its first keys count. */
function overlayKeys(node: LocatedMap): unknown {
  return Object.assign(
    Object.create(null),
    Object.fromEntries([...node.entries.keys()].map((key) => [key, ANYTHING])),
  );
}

function typesOf({ type }: ResolvedSchema): readonly string[] {
  if (type === undefined) return [];
  return typeof type === 'string' ? [type] : type;
}

const NUMBER = /^[-+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?$/;

function visitScalar(
  node: LocatedScalar,
  schema: ResolvedSchema,
  path: Path,
  reading: Reading,
): unknown {
  const types = typesOf(schema);
  const takesNumber =
    types.includes('number') || types.includes('integer') || typeof schema.const === 'number';
  const takesTruth = types.includes('boolean') || typeof schema.const === 'boolean';
  if (node.style === 'plain') {
    if (takesNumber && NUMBER.test(node.text)) return Number(node.text);
    if (takesTruth && (node.text === 'true' || node.text === 'false')) return node.text === 'true';
  }
  const takesText = types.includes('string') || schema.enum !== undefined;
  if (takesText && schema.quantity === undefined && !takesNumber) {
    tellNumberLike(node, path, reading);
    if (schema.prose === true) tellCut(node, path, reading);
  }
  return node.text;
}

function isNull(node: Located): node is LocatedScalar {
  return (
    node.kind === 'scalar' && node.style === 'plain' && /^(?:null|Null|NULL|~)$/.test(node.text)
  );
}

function tellEmpty(
  entry: LocatedEntry,
  schema: ResolvedSchema,
  path: Path,
  reading: Reading,
): void {
  const at = reading.emptyAt.get(entry);
  const unknown = allowsUnknown(schema);
  const end = at ?? entry.keyRange.end;
  const fixes = unknown ? [fix('Write `unknown`', { start: end, end }, ' unknown')] : [];
  const advice = unknown ? '; write `unknown` if it is not settled' : '';
  reading.problems.push(
    problem(
      'format/empty-value',
      path,
      entry.keyRange,
      `\`${entry.key}\` has no value${advice}`,
      fixes,
    ),
  );
}

function tellEmptyItem({ range }: LocatedList, path: Path, reading: Reading): void {
  const message = 'an item of this list has no value';
  reading.problems.push(problem('format/empty-value', path, range, message));
}

function tellNull(
  entry: LocatedEntry,
  value: LocatedScalar,
  schema: ResolvedSchema | null,
  path: Path,
  reading: Reading,
): void {
  const unknown = schema !== null && allowsUnknown(schema);
  const fixes = unknown ? [fix('Write `unknown`', value.range, 'unknown')] : [];
  const advice = unknown ? '; write `unknown` if it is not settled' : '';
  reading.problems.push(
    problem(
      'format/empty-value',
      path,
      value.range,
      `\`${value.text}\` is no value of \`${entry.key}\`${advice}`,
      fixes,
    ),
  );
}

function tellNumberLike(node: LocatedScalar, path: Path, reading: Reading): void {
  if (node.style !== 'plain' || !isNumberLike(node.text)) return;
  const what = /^[tTfF]/.test(node.text) ? 'a truth value' : 'a number';
  reading.problems.push(
    problem(
      'yaml/number-like',
      path,
      node.range,
      `YAML takes \`${node.text}\` for ${what}: put it in quotes`,
      [fix('Put it in quotes', node.range, quoted(node.text), true)],
    ),
  );
}

function tellCut(node: LocatedScalar, path: Path, reading: Reading): void {
  const cut = reading.cuts.get(node);
  if (cut === undefined) return;
  const range = { start: node.range.end, end: cut.end };
  reading.problems.push(
    problem(
      'yaml/text-cut',
      path,
      range,
      'from `#` on this is a comment and no part of the text: put the text in quotes if it belongs to it',
    ),
  );
}

function tellEqualKeys(node: LocatedMap, rule: ResolvedSchema, path: Path, reading: Reading): void {
  const { quantity } = rule;
  if (quantity === undefined) return;
  const seen = new Map<number, string>();
  for (const { key, keyRange } of node.entries.values()) {
    const si = readQuantity(key, { quantity }).quantity?.si;
    if (si === undefined) continue;
    const rounded = Number(si.toPrecision(12)); // 0.063 kHz and 63 Hz, whatever the multiplication made of them
    const first = seen.get(rounded);
    if (first === undefined) seen.set(rounded, key);
    else {
      reading.problems.push({
        ...problem(
          'yaml/equal-keys',
          [...path, key],
          keyRange,
          `\`${key}\` is the same frequency as \`${first}\``,
        ),
        related: [{ path: [...path, first], message: `\`${first}\`` }],
      });
    }
  }
}
