// Faults of a value: another type, dimension, word or shape than the place takes.

import { quantityRule, referenceKinds, wordsAt } from '../describe.ts';
import { exampleText } from '../exampleText.ts';
import type { Located, LocatedScalar } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem, TextFix } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import { dimensionName } from '../quantity/dimensions.ts';
import { dimensionsOf, readQuantity } from '../quantity/read.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import { countProblem } from './countProblem.ts';
import { dayFixes } from './dayFixes.ts';
import type { Fault } from './fault.ts';
import { fix, problem, type Reading } from './reading.ts';
import { shiftFix } from './shift.ts';

const VALUE_KEYWORDS: ReadonlySet<string> = new Set([
  'type',
  'quantity',
  'words',
  'pattern',
  'enum',
  'const',
  'format',
  'arrow',
  'minimum',
  'maximum',
  'exclusiveMinimum',
  'minLength',
  'maxLength',
  'not',
  'minItems',
  'maxItems',
  'uniqueItems',
  'minProperties',
  'maxProperties',
  'discriminator',
]);

/** The one problem of a value; null where the faults are in a map's keys. */
export function valueProblem(fault: Fault, reading: Reading): Problem | null {
  const { errors, node, schema } = fault;
  const keywords = new Set(
    errors.map(({ keyword }) => keyword).filter((keyword) => VALUE_KEYWORDS.has(keyword)),
  );
  if (node.kind === 'map') keywords.delete('not'); // keys that exclude one another
  if (keywords.size === 0) return null;
  if (keywords.has('discriminator') && node.kind === 'map') return tagProblem(fault, reading);
  if (!takes(schema, node)) return typeProblem(fault);
  if (node.kind !== 'scalar') return countProblem(fault);
  return scalarProblem(node, fault);
}

function takes({ type, enum: choices, const: constant }: ResolvedSchema, node: Located): boolean {
  const types = type === undefined ? [] : typeof type === 'string' ? [type] : type;
  if (types.length === 0)
    return node.kind === 'scalar' || (choices === undefined && constant === undefined);
  if (node.kind === 'map') return types.includes('object');
  if (node.kind === 'list') return types.includes('array');
  return types.some((one) => one !== 'object' && one !== 'array');
}

/** A map where a value belongs, and the like. */
function typeProblem({ path, node, entry, schema }: Fault): Problem {
  const wanted = wantedText(schema);
  const range = node.kind === 'scalar' || entry === null ? node.range : entry.keyRange;
  return problem(
    'format/wrong-type',
    path,
    range,
    `${wanted} is expected here${such(schema)}`,
    typeFixes(node, schema),
  );
}

/** "a length", "a list", "a map of keys", "one of `on`, `off`" */
function wantedText(schema: ResolvedSchema): string {
  const { type, quantity } = schema;
  const types = type === undefined ? [] : typeof type === 'string' ? [type] : type;
  const parts: string[] = [];
  if (quantity !== undefined) parts.push(dimensionName(dimensionsOf({ quantity })));
  if (types.includes('object')) parts.push('a map of keys');
  if (types.includes('array')) parts.push('a list');
  if (types.includes('number') || types.includes('integer')) parts.push('a number');
  if (types.includes('boolean')) parts.push('`true` or `false`');
  const words = wordsAt(schema);
  if (
    parts.length === 0 &&
    0 < words.length &&
    referenceKinds(schema).length === 0 &&
    schema.format === undefined
  ) {
    return words.length === 1
      ? `\`${words[0]}\``
      : `one of ${words.map((word) => `\`${word}\``).join(', ')}`;
  }
  if (parts.length === 0)
    return schema.format === 'date'
      ? 'a day'
      : referenceKinds(schema).length === 0
        ? 'text'
        : 'a name';
  return parts.join(' or ');
}

function such({ examples, enum: choices }: ResolvedSchema): string {
  const [example] = examples ?? [];
  return example === undefined || choices !== undefined
    ? ''
    : `, such as \`${exampleText(example)}\``;
}

function typeFixes(node: Located, schema: ResolvedSchema): readonly TextFix[] {
  const { type } = schema;
  if (type !== 'array' || node.kind !== 'scalar' || node.style === 'block') return [];
  const { start, end } = node.range;
  const edits = [
    { range: { start, end: start }, text: '[' },
    { range: { start: end, end }, text: ']' },
  ];
  return [{ title: 'Make it a list', edits, safe: false }];
}

function scalarProblem(node: LocatedScalar, fault: Fault): Problem {
  const { schema, path } = fault;
  const rule = quantityRule(schema);
  const near = wordFixes(node, schema);
  if (rule !== null && (near.length === 0 || /\d/.test(node.text))) {
    const told = quantityProblem(node, path, rule);
    if (told !== null) return told;
  }
  if (
    schema.enum !== undefined ||
    schema.const !== undefined ||
    (schema.words !== undefined && 0 < near.length)
  ) {
    const words = wordsAt(schema);
    const list = words.map((word) => `\`${word}\``).join(', ');
    const meant =
      near[0] === undefined ? '' : `; did you mean \`${nearNames(node.text, words)[0] ?? ''}\`?`;
    const message =
      words.length === 1
        ? `${list} is expected here`
        : `\`${shown(node.text)}\` is not one of ${list}${meant}`;
    return problem('format/not-a-choice', path, node.range, message, near);
  }
  return plainProblem(node, fault, near);
}

function plainProblem(
  node: LocatedScalar,
  { schema, path, errors }: Fault,
  near: readonly TextFix[],
): Problem {
  if (schema.format === 'date') {
    return problem(
      'format/not-a-day',
      path,
      node.range,
      `a day is expected here, such as \`2026-10-12\``,
      dayFixes(node),
    );
  }
  if (schema.arrow !== undefined) {
    const message =
      schema.arrow === 'wire'
        ? 'a connection is expected here, such as `desk.main_left -> sub.in_left`'
        : 'a path is expected here, such as `in -> level -> driver`';
    return problem('format/not-an-arrow', path, node.range, message);
  }
  const bound = errors.find(({ keyword }) =>
    ['minimum', 'maximum', 'exclusiveMinimum'].includes(keyword),
  );
  if (bound !== undefined)
    return problem('format/number-range', path, node.range, `must be ${numberBounds(schema)}`);
  const length = errors.find(({ keyword }) => ['minLength', 'maxLength'].includes(keyword));
  if (length !== undefined) {
    const message =
      length.keyword === 'minLength'
        ? 'text is missing here'
        : `at most ${schema.maxLength ?? 0} characters are read here`;
    return problem('format/count', path, node.range, message);
  }
  if (schema.fingerprint === true) {
    return problem(
      'format/wrong-type',
      path,
      node.range,
      'a fingerprint is expected here: `s-` and eight hexadecimal digits',
    );
  }
  const isName = schema.not?.enum !== undefined;
  if (isName)
    return problem(
      'format/not-a-name',
      path,
      node.range,
      nameMessage(node.text, schema),
      nameFixes(node, schema),
    );
  const fixes = 0 < near.length ? near : unquoteFixes(node, schema);
  return problem(
    'format/wrong-type',
    path,
    node.range,
    `${wantedText(schema)} is expected here${such(schema)}`,
    fixes,
  );
}

function quantityProblem(
  node: LocatedScalar,
  path: readonly string[],
  rule: Parameters<typeof readQuantity>[1],
): Problem | null {
  const { fault } = readQuantity(node.text, rule);
  if (fault === null) return null;
  // Quotes and escapes: places inside the text are places in the file only where both are written alike.
  const inset = node.style === 'plain' ? 0 : 1;
  const exact =
    node.range.end - node.range.start === node.text.length + 2 * inset && node.style !== 'block';
  const shift = node.range.start + inset;
  const range = exact
    ? { start: fault.range.start + shift, end: fault.range.end + shift }
    : node.range;
  const fixes = exact ? fault.fixes.map((one) => shiftFix(one, shift)) : [];
  const { code, severity, message } = fault;
  return {
    code,
    severity,
    path,
    range: range.start < range.end ? range : node.range,
    message,
    fixes,
  };
}

function wordFixes(node: LocatedScalar, schema: ResolvedSchema): readonly TextFix[] {
  return nearNames(node.text, wordsAt(schema)).map((word) =>
    fix(`Change \`${shown(node.text)}\` to \`${word}\``, node.range, word),
  );
}

function unquoteFixes(node: LocatedScalar, { type }: ResolvedSchema): readonly TextFix[] {
  const takesNumber = type === 'number' || type === 'integer' || type === 'boolean';
  if (
    !takesNumber ||
    node.style === 'plain' ||
    !/^(?:[-+]?\d+(?:\.\d+)?|true|false)$/.test(node.text)
  )
    return commaFixes(node, takesNumber);
  return [fix('Remove the quotes', node.range, node.text, true)];
}

function commaFixes(node: LocatedScalar, takesNumber: boolean): readonly TextFix[] {
  if (!takesNumber || !/^[-+]?(?:\d+,\d+|\.\d+)$/.test(node.text)) return [];
  const text = node.text.replace(',', '.').replace(/^([-+]?)\./, '$10.');
  return [fix(`Change \`${node.text}\` to \`${text}\``, node.range, text)];
}

function tagProblem(
  { path, node, entry, schema, errors }: Fault,
  reading: Reading,
): Problem | null {
  const error = errors.find(({ keyword }) => keyword === 'discriminator');
  const tag = String(error?.params.tag ?? '');
  const { entries } = node.kind === 'map' ? node : { entries: null };
  const tagEntry = entries?.get(tag);
  const value = tagEntry?.value;
  if (value?.kind === 'scalar') {
    return reading.damaged.has(value)
      ? null
      : wrongTag(value, [...path, tag], schema.properties?.[tag] ?? {});
  }
  if (tagEntry !== undefined) return null;
  const slip = [...(entries?.values() ?? [])].find(
    ({ key }) => schema.properties?.[key] === undefined && 0 < nearNames(key, [tag]).length,
  );
  if (slip !== undefined) {
    const message = `\`${shown(slip.key)}\` is not a key of \`${path.at(-1) ?? ''}\`; did you mean \`${tag}\`?`;
    return problem('format/unknown-key', [...path, slip.key], slip.keyRange, message, [
      fix(`Change \`${shown(slip.key)}\` to \`${tag}\``, slip.keyRange, tag),
    ]);
  }
  if (
    reading.holds.some(
      ({ range }) => node.range.start <= range.start && range.end <= node.range.end,
    )
  )
    return null;
  const range = entry?.keyRange ?? { start: node.range.start, end: node.range.start + 1 };
  return problem(
    'format/missing-key',
    path,
    range,
    `\`${tag}\` is missing from \`${path.at(-1) ?? ''}\``,
  );
}

function wrongTag(value: LocatedScalar, path: Path, choices: ResolvedSchema): Problem {
  const near = wordFixes(value, choices);
  const words = wordsAt(choices);
  const meant =
    near.length === 0 ? '' : `; did you mean \`${nearNames(value.text, words)[0] ?? ''}\`?`;
  const list = words.map((word) => `\`${word}\``).join(', ');
  const message = `\`${shown(value.text)}\` is not one of ${list}${meant}`;
  return problem('format/not-a-choice', path, value.range, message, near);
}

/** What is wrong with a name, in words. */
export function nameMessage(name: string, { not }: ResolvedSchema): string {
  if (not?.enum?.includes(name))
    return `\`${name}\` means something of its own and cannot be a name`;
  return `\`${shown(name)}\` cannot be a name: a small letter first, then small letters, digits and \`_\``;
}

/** A name made of what was written. */
export function nameFixes(
  { text, range }: Pick<LocatedScalar, 'text' | 'range'>,
  { not }: ResolvedSchema,
): readonly TextFix[] {
  const made = text
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .replace(/([a-z0-9])([A-Z])/g, '$1_$2')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '_')
    .replace(/^[_0-9]+|_+$/g, '');
  if (made === '' || made === text || not?.enum?.includes(made)) return [];
  return [fix(`Change \`${shown(text)}\` to \`${made}\``, range, made)];
}

function numberBounds({ minimum, maximum, exclusiveMinimum }: ResolvedSchema): string {
  const parts = [
    minimum === undefined ? null : `at least ${minimum}`,
    exclusiveMinimum === undefined ? null : `more than ${exclusiveMinimum}`,
    maximum === undefined ? null : `at most ${maximum}`,
  ];
  return parts.filter((part) => part !== null).join(' and ');
}

/** What was written, cut to what a message can bear. */
export function shown(text: string): string {
  const line = text.replace(/\s+/g, ' ');
  return line.length <= 60 ? line : `${line.slice(0, 59)}…`;
}
