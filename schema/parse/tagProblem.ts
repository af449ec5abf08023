// Faults of a tag, the key whose value says what shape the rest has: `kind: panel`.

import { wordsAt } from '../describe.ts';
import type { LocatedScalar } from '../model/located.ts';
import type { Path } from '../model/path.ts';
import type { Problem } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import type { ResolvedSchema } from '../resolveSchemas.ts';
import type { Fault } from './fault.ts';
import { fix, problem, type Reading } from './reading.ts';
import { shown, wordFixes } from './words.ts';

/** The one problem of a tag: a wrong word, a slip in the key, or no tag at all. */
export function tagProblem(
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
