// Writes the reference of the format, `docs/format.md`, from the schemas.

import { rootSchema } from '../describe.ts';
import { exampleText } from '../exampleText.ts';
import type { FileKind } from '../model/parsedFile.ts';
import { UNITS } from '../quantity/units.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';

const KINDS: readonly FileKind[] = ['room', 'gear', 'facility'];

/** @returns the text of the page */
export function compileReference(): string {
  const parts = [INTRODUCTION, unitsPart(), ...KINDS.map(kindPart)];
  return `${parts
    .join('\n\n')
    .replace(/\n{3,}/g, '\n\n')
    .trimEnd()}\n`;
}

const INTRODUCTION = `<!-- Made from the schemas by: npx tsx schema/build/generate.ts -->

# The files of Groundbass

Three kinds of file, all YAML 1.2, all plain to read:

| file | what it holds |
|---|---|
| \`*.room.yaml\` | one room: what is there, what is set, what was measured, who signed |
| \`*.gear.yaml\` | models of gear: what they can do and which settings they offer |
| \`facility.yaml\` | policies, the inventory, and where rooms and gear files are; the nearest one upwards applies |

What holds everywhere:

- The first key names the kind of file and the version of its format: \`room: 1\`.
- Every quantity carries its unit: \`4.62 m\`. Where it is uncertain, ± and by how much follow: \`6.18 m ± 20 mm\`.
- A key that is missing was not recorded. \`unknown\` was looked at and is not settled; it may stand wherever a value or a reference may.
- Names that you give (\`left\`, \`moor_12\`) start with a small letter; small letters, digits and \`_\` follow. Speakers, subwoofers and devices
  share their names.
- \`note\` may stand in any record and is printed on the sheet. Comments (\`# …\`) stay private. Keys that begin with \`x_\` are yours: they are kept
  and ignored.
- \`x\` runs to the right along the front wall from its left corner (seen from the seat, facing front), \`y\` from the front wall towards the
  back, \`z\` up from the floor.
- In braces a comma ends a value: text with a comma goes in quotes. A \`#\` behind a space starts a comment: text with one goes in quotes.
- Anchors, aliases, merge keys, tags and several documents in a file are not used.

In the tables below, keys in bold have to be there.`;

function unitsPart(): string {
  const byDimension = new Map<string, string[]>();
  for (const { dimension, symbol } of UNITS) {
    byDimension.set(dimension, [...(byDimension.get(dimension) ?? []), symbol]);
  }
  const rows = [...byDimension].map(([dimension, symbols]) => {
    const written = symbols.map((symbol) => COMPOUND[symbol] ?? `\`${symbol}\``).join(', ');
    return `| ${dimension.replace('_', ' ')} | ${written} |`;
  });
  return ['## Units', '| what | units |\n|---|---|', ...rows]
    .join('\n')
    .replace('## Units\n', '## Units\n\n');
}

const COMPOUND: Readonly<Record<string, string>> = {
  'ft in': '`15 ft 2 1/2 in`',
  '\'"': '`15\'2"`',
};

function kindPart(kind: FileKind): string {
  const schema = rootSchema(kind);
  const records: string[] = [];
  const seen = new Map<ResolvedSchema, string>();
  collect(schema, '', records, seen);
  return `## ${schema.title ?? kind}\n\n${schema.description ?? ''}\n\n${table(schema)}\n\n${records.join('\n\n')}`;
}

/** A section for each record below, in the order of the keys; a record that is used at several places is told once. */
function collect(
  schema: ResolvedSchema,
  place: string,
  records: string[],
  seen: Map<ResolvedSchema, string>,
): void {
  for (const [key, inner] of childrenOf(schema)) {
    const path = place === '' ? key : `${place}.${key}`;
    for (const [record, name] of recordsOf(inner, path)) {
      const known = [...seen].find(([one]) => one === record || sameRecord(one, record));
      if (known !== undefined) continue;
      seen.set(record, name);
      records.push(section(record, name));
      collect(record, name, records, seen);
    }
  }
}

function sameRecord(a: ResolvedSchema, b: ResolvedSchema): boolean {
  return (
    a.properties !== undefined &&
    a.properties === b.properties &&
    a.additionalProperties === b.additionalProperties
  );
}

function childrenOf({
  properties,
  additionalProperties,
  items,
  oneOf,
  discriminator,
}: ResolvedSchema): readonly (readonly [string, ResolvedSchema])[] {
  const own = Object.entries(properties ?? {}).filter(([key]) => key !== 'note');
  const named =
    typeof additionalProperties === 'object' ? [['*name*', additionalProperties] as const] : [];
  const listed = items === undefined ? [] : [['*item*', items] as const];
  const shapes =
    discriminator === undefined
      ? []
      : (oneOf ?? []).map((shape) => [`*${shape.title?.toLowerCase() ?? ''}*`, shape] as const);
  return [...own, ...named, ...listed, ...shapes];
}

/** The records that a value is or holds: those of a map by name stand under `<name>`. */
function recordsOf(
  schema: ResolvedSchema,
  path: string,
): readonly (readonly [ResolvedSchema, string])[] {
  const { properties, additionalProperties, discriminator, oneOf, items } = schema;
  if (discriminator !== undefined)
    return (oneOf ?? []).map((shape) => [shape, `${path} (${shape.title?.toLowerCase() ?? ''})`]);
  if (properties !== undefined && 0 < Object.keys(properties).length) return [[schema, path]];
  if (typeof additionalProperties === 'object')
    return recordsOf(
      additionalProperties,
      `${path}.<${schema.defines ?? schema.keyReference ?? 'name'}>`,
    );
  return items === undefined ? [] : recordsOf(items, path);
}

function section(schema: ResolvedSchema, name: string): string {
  const examples = (schema.examples ?? [])
    .slice(0, 2)
    .map((example) => `\`\`\`yaml\n${exampleText(example)}\n\`\`\``);
  return [`### \`${name}\``, schema.description ?? '', table(schema), rules(schema), ...examples]
    .filter((part) => part !== '')
    .join('\n\n');
}

function table(schema: ResolvedSchema): string {
  const rows = Object.entries(schema.properties ?? {})
    .filter(([key]) => key !== 'note')
    .map(([key, inner]) => {
      const needed = schema.required?.includes(key);
      return `| ${needed ? `**\`${key}\`**` : `\`${key}\``} | ${cell(inner.description ?? '')}${typical(inner)} | ${value(inner)} |`;
    });
  const { additionalProperties: inner } = schema;
  if (typeof inner === 'object')
    rows.push(
      `| a ${schema.defines ?? schema.keyReference ?? 'name'}'s name | ${cell(inner.description ?? '')} | ${value(inner)} |`,
    );
  return rows.length === 0
    ? ''
    : ['| key | what it is | what it takes |', '|---|---|---|', ...rows].join('\n');
}

function typical({ typical: words }: ResolvedSchema): string {
  return words === undefined ? '' : ` Usual: ${cell(words)}.`;
}

/** Which kinds of value there may be, with an example. */
function value(schema: ResolvedSchema): string {
  const { enum: choices, const: constant, examples } = schema;
  if (choices !== undefined) return choices.map((choice) => `\`${choice}\``).join(', ');
  if (constant !== undefined) return `\`${constant}\``;
  const bounds = [
    schema.least === undefined ? null : `at least ${schema.least}`,
    schema.above === undefined ? null : `more than ${schema.above}`,
    schema.most === undefined ? null : `at most ${schema.most}`,
    schema.minimum === undefined ? null : `at least ${schema.minimum}`,
    schema.exclusiveMinimum === undefined ? null : `more than ${schema.exclusiveMinimum}`,
    schema.maximum === undefined ? null : `at most ${schema.maximum}`,
  ].filter((bound) => bound !== null);
  const words = (schema.words ?? []).map((word) => `\`${word}\``);
  const shown = (examples ?? []).slice(0, 2).map((example) => `\`${cell(exampleText(example))}\``);
  const parts = [
    shown.join(' or '),
    words.length === 0 ? '' : `also ${words.join(', ')}`,
    bounds.join(', '),
  ];
  return (
    parts.filter((part) => part !== '').join('; ') ||
    (schema.type === undefined ? 'a record' : describeType(schema))
  );
}

function describeType({ type, additionalProperties }: ResolvedSchema): string {
  if (typeof additionalProperties === 'object') return 'records by name';
  const types = [type ?? []].flat();
  return types.includes('object')
    ? 'a record'
    : types.includes('array')
      ? 'a list'
      : types.includes('string')
        ? 'text'
        : types.join(' or ');
}

function rules({
  oneOf,
  not,
  discriminator,
  dependentRequired,
  dependentSchemas,
}: ResolvedSchema): string {
  const lines: string[] = [];
  const ways = (branches: readonly ResolvedSchema[]): string =>
    branches
      .map(({ required = [] }) => required.map((key) => `\`${key}\``).join(' with '))
      .join(', or ');
  if (oneOf !== undefined && discriminator === undefined)
    lines.push(`Exactly one of: ${ways(oneOf)}.`);
  if (not?.required !== undefined)
    lines.push(`Not both: ${not.required.map((key) => `\`${key}\``).join(' and ')}.`);
  for (const [key, needed] of Object.entries(dependentRequired ?? {}))
    lines.push(`\`${key}\` goes with ${needed.map((one) => `\`${one}\``).join(', ')}.`);
  for (const [key, { oneOf: branches = [] }] of Object.entries(dependentSchemas ?? {}))
    lines.push(`With \`${key}\`, exactly one of: ${ways(branches)}.`);
  return lines.join(' ');
}

function cell(text: string): string {
  return text.replaceAll('|', '\\|').replaceAll('\n', ' ');
}
