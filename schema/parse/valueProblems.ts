// Faults of a value: another type, dimension, word or shape than the place takes.

import { quantityRule, wordsAt } from '../describe.ts';
import type { Located, LocatedScalar } from '../model/located.ts';
import type { Problem, TextFix } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import { readQuantity } from '../quantity/read.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import { countProblem } from './countProblem.ts';
import { dayFixes } from './dayFixes.ts';
import type { Fault } from './fault.ts';
import { nameFixes, nameMessage } from './names.ts';
import { capitalised, fix, problem, type Reading } from './reading.ts';
import { shiftFix } from './shift.ts';
import { tagProblem } from './tagProblem.ts';
import { shown, such, wantedText, wordFixes } from './words.ts';

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
      'a fingerprint is expected here, as the tool writes it: `s-` and five groups of four hexadecimal digits',
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
    message: capitalised(message),
    fixes,
  };
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

function numberBounds({ minimum, maximum, exclusiveMinimum }: ResolvedSchema): string {
  const parts = [
    minimum === undefined ? null : `at least ${minimum}`,
    exclusiveMinimum === undefined ? null : `more than ${exclusiveMinimum}`,
    maximum === undefined ? null : `at most ${maximum}`,
  ];
  return parts.filter((part) => part !== null).join(' and ');
}
