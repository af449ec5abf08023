// Faults of a map's keys: unknown, missing, not a name, two where one may stand.

import { stepInto } from '../describe.ts';
import type { Problem, TextFix } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import { readQuantity } from '../quantity/read.ts';
import { headRange } from './fault.ts';
import { nameFixes, nameMessage } from './names.ts';
import { isMisspelled, type MapFault, mapName, oneOfProblem } from './oneOfProblem.ts';
import { fix, problem } from './reading.ts';
import { shiftFix } from './shift.ts';
import { shown } from './words.ts';

/**
 * @param damaged the map was not read whole, so nothing is said to be missing from it
 * @returns the problems, and the keys that they are about, below which nothing more is told
 */
export function keyProblems(
  fault: MapFault,
  damaged: boolean,
): { problems: readonly Problem[]; keys: readonly string[] } {
  const { errors } = fault;
  const unknown = errors
    .filter(({ keyword }) => keyword === 'additionalProperties')
    .map(({ params }) => String(params.additionalProperty));
  const badNames = errors
    .filter(({ keyword }) => keyword === 'propertyNames')
    .map(({ params }) => String(params.propertyName));
  const problems = [
    ...badNames.flatMap((key) => badName(key, fault)),
    ...unknown.flatMap((key) => unknownKey(key, fault)),
    ...misplacedKeys(fault, unknown),
    ...excludingKeys(fault),
  ];
  const missing = damaged ? [] : missingKeys(fault, [...unknown, ...badNames]);
  return { problems: [...problems, ...missing], keys: [...unknown, ...badNames] };
}

/** A key where any name may stand, which is a slip away from one that means something; null where it is not. */
export function misspelledKey(
  key: string,
  { path, node, schema }: Pick<MapFault, 'path' | 'node' | 'schema'>,
): Problem | null {
  const entry = node.entries.get(key);
  const known = Object.keys(schema.properties ?? {}).filter((name) => !node.entries.has(name));
  const [meant] = nearNames(key, known);
  if (entry === undefined || meant === undefined) return null;
  const message = `\`${shown(key)}\` is not a key of ${mapName({ path, schema })}; did you mean \`${meant}\`?`;
  return problem('format/unknown-key', [...path, key], entry.keyRange, message, [
    renameKey(key, meant, entry.keyRange),
  ]);
}

function unknownKey(key: string, fault: MapFault): readonly Problem[] {
  const { node, schema, path } = fault;
  const entry = node.entries.get(key);
  if (entry === undefined) return [];
  const known = Object.keys(schema.properties ?? {}).filter((name) => !node.entries.has(name));
  const near = nearNames(key, known);
  const [meant] = near;
  const said = `\`${shown(key)}\` is not a key of ${mapName(fault)}`;
  const message =
    meant === undefined
      ? `${said}, or is from a newer Groundbass`
      : `${said}; did you mean \`${meant}\`?`;
  const fixes = [
    ...near.map((name) => renameKey(key, name, entry.keyRange)),
    ...ownKey(key, entry.keyRange),
  ];
  return [problem('format/unknown-key', [...path, key], entry.keyRange, message, fixes)];
}

function renameKey(key: string, name: string, range: { start: number; end: number }): TextFix {
  return fix(`Change \`${shown(key)}\` to \`${name}\``, range, name);
}

function ownKey(key: string, { start }: { start: number }): readonly TextFix[] {
  if (!/^[a-z][a-z0-9_]*$/.test(key)) return [];
  return [fix(`Keep it as a key of your own: \`x_${key}\``, { start, end: start }, 'x_')];
}

function badName(key: string, fault: MapFault): readonly Problem[] {
  const { node, schema, path } = fault;
  const entry = node.entries.get(key);
  const rule = schema.propertyNames;
  if (entry === undefined || rule === undefined) return [];
  const place = [...path, key];
  const { keyRange } = entry;
  if (rule.quantity !== undefined) {
    const { fault: quantityFault } = readQuantity(key, { ...rule, quantity: rule.quantity });
    const expected = problem(
      'quantity/not-a-quantity',
      place,
      keyRange,
      'a frequency is expected as the key, such as `63 Hz`',
    );
    if (quantityFault === null) return [expected];
    const { code, severity, message } = quantityFault;
    const plain = keyRange.end - keyRange.start === key.length;
    const fixes = plain ? quantityFault.fixes.map((one) => shiftFix(one, keyRange.start)) : [];
    return [{ ...expected, code, severity, message, fixes }];
  }
  if (rule.enum !== undefined) {
    const words = rule.enum.map(String);
    const near = nearNames(key, words);
    const meant =
      near[0] === undefined ? ', or is from a newer Groundbass' : `; did you mean \`${near[0]}\`?`;
    const fixes = near.map((name) => renameKey(key, name, keyRange));
    return [
      problem(
        'format/unknown-key',
        place,
        keyRange,
        `\`${shown(key)}\` is not a key of ${mapName(fault)}${meant}`,
        fixes,
      ),
    ];
  }
  const known = Object.keys(schema.properties ?? {});
  const near = nearNames(key, known).map((name) => renameKey(key, name, keyRange));
  const made = 0 < near.length ? near : nameFixes({ text: key, range: keyRange }, rule);
  return [problem('format/not-a-name', place, keyRange, nameMessage(key, rule), made)];
}

/** Keys that go with another one, which is not there. */
function misplacedKeys(
  { errors, node, path }: MapFault,
  wrongKeys: readonly string[],
): readonly Problem[] {
  const told = errors.filter(
    ({ keyword, schemaPath }) =>
      keyword === 'dependentRequired' && schemaPath.endsWith('/dependentRequired'),
  );
  return told.flatMap(({ params }) => {
    const key = String(params.property);
    const entry = node.entries.get(key);
    const needed = String(params.missingProperty);
    if (entry === undefined || isMisspelled(needed, wrongKeys)) return [];
    const message = `\`${key}\` goes with \`${needed}\`, which is not here`;
    return [problem('format/goes-with', [...path, key], entry.keyRange, message)];
  });
}

/** Keys that may not stand beside one another. */
function excludingKeys({ errors, node, path, schema }: MapFault): readonly Problem[] {
  const keys = schema.not?.required;
  if (keys === undefined || !errors.some(({ keyword }) => keyword === 'not')) return [];
  const entry = [...node.entries.values()].filter(({ key }) => keys.includes(key))[1];
  if (entry === undefined) return [];
  const list = keys.map((key) => `\`${key}\``).join(' or ');
  const message = `only one of ${list} may be here`;
  return [problem('format/one-of', [...path, entry.key], entry.keyRange, message)];
}

function missingKeys(fault: MapFault, wrongKeys: readonly string[]): readonly Problem[] {
  const { errors, node, path } = fault;
  const required = errors
    .filter(({ keyword, schemaPath }) => keyword === 'required' && !schemaPath.includes('/oneOf/'))
    .map(({ params }) => String(params.missingProperty))
    .filter((key) => !node.entries.has(key) && !isMisspelled(key, wrongKeys));
  const problems = errors
    .filter(({ keyword }) => keyword === 'oneOf')
    .flatMap((error) => oneOfProblem(error, fault, wrongKeys));
  if (required.length === 0) return problems;
  const names = required.map((key) => `\`${key}\``);
  const list =
    names.length === 1
      ? `${names[0]} is`
      : `${names.slice(0, -1).join(', ')} and ${names.at(-1)} are`;
  const message = `${list} missing from ${mapName(fault)}`;
  return [
    problem(
      'format/missing-key',
      path,
      headRange(node, fault.entry),
      message,
      missingFixes(required, fault),
    ),
    ...problems,
  ];
}

function missingFixes(keys: readonly string[], { node, schema }: MapFault): readonly TextFix[] {
  if (!node.flow) return [];
  const last = [...node.entries.values()].at(-1);
  if (last === undefined) return [];
  const { end } = last.range;
  const added = keys
    .map((key) => `, ${key}: ${stepInto(schema, key)?.type === 'array' ? '[]' : 'unknown'}`)
    .join('');
  const names = keys.map((key) => `\`${key}: unknown\``).join(' and ');
  return [fix(`Add ${names}`, { start: end, end }, added)];
}
