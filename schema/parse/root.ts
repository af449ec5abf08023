// The file's own keys: the version on top, nothing unknown. An unknown version silences what depends on it.

import { rootSchema } from '../describe.ts';
import type { LocatedMap, Range } from '../model/located.ts';
import type { FileKind } from '../model/parsedFile.ts';
import type { Problem, TextFix } from '../model/problem.ts';
import { validators } from '../validators.generated.js';
import { keyProblems } from './keyProblems.ts';
import { fix, problem } from './reading.ts';
import { lineEnd } from './segments.ts';

/** The version of each kind's format that this Groundbass reads. Migrations from older ones go from number to number. */
export const VERSIONS: Readonly<Record<FileKind, number>> = { room: 1, gear: 1, facility: 1 };

export interface Parts {
  readonly root: LocatedMap | null;
  /** Of the file's parts. */
  readonly problems: readonly Problem[];
  /** Something between the keys could not be read, so nothing is said to be missing. */
  readonly damaged: boolean;
  /** Keys whose parts could not be read for certain, so nothing is said about the keys either. */
  readonly uncertain: ReadonlySet<string>;
}

/** @returns all problems of the file, in no order */
export function checkRoot(kind: FileKind, text: string, parts: Parts): readonly Problem[] {
  const { root, problems, damaged } = parts;
  const version = root?.entries.get(kind)?.value;
  if (
    version?.kind === 'scalar' &&
    /^\d+$/.test(version.text) &&
    Number(version.text) !== VERSIONS[kind]
  ) {
    const { text: written, range } = version;
    return [
      ...problems.filter(({ code }) => isAboutText(code)),
      unknownVersion(kind, written, range),
    ];
  }
  if (root === null) {
    return damaged || 0 < problems.length ? problems : [versionMissing(kind, text)];
  }
  const own = ownKeys(kind, root, damaged).filter(
    ({ path: [key] }) => !parts.uncertain.has(key ?? ''),
  );
  return [...problems, ...versionProblems(kind, text, root, damaged), ...own];
}

function isAboutText(code: string): boolean {
  return (code.startsWith('yaml/') && code !== 'yaml/number-like') || code.startsWith('limits/');
}

function unknownVersion(kind: FileKind, version: string, range: Range): Problem {
  const known = VERSIONS[kind];
  const message = `this is version ${version} of the ${kind} format; this Groundbass reads version ${known}, so nothing else is checked or computed`;
  return problem('format/version-unknown', [kind], range, message);
}

function versionMissing(kind: FileKind, text: string): Problem {
  const at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const line = `${kind}: ${VERSIONS[kind]}`;
  const first = text.slice(at, lineEnd(text, at, text.length)).trimEnd();
  const range = { start: at, end: at + first.length };
  return problem('format/version-missing', [], range, `\`${line}\` is missing as the first line`, [
    fix(`Add \`${line}\``, { start: at, end: at }, `${line}\n`, true),
  ]);
}

function versionProblems(
  kind: FileKind,
  text: string,
  root: LocatedMap,
  damaged: boolean,
): readonly Problem[] {
  const entry = root.entries.get(kind);
  const [first] = root.entries.keys();
  if (entry === undefined)
    return damaged || misspelled(kind, root) ? [] : [versionMissing(kind, text)];
  if (first === kind || first === undefined) return [];
  const message = `\`${kind}\` belongs on the first line: it says what the file is`;
  return [
    problem('format/first-key', [kind], entry.keyRange, message, [
      moveToTop(text, root, entry.range),
    ]),
  ];
}

/** `rom: 1`: the slip is told as an unknown key. */
function misspelled(kind: FileKind, root: LocatedMap): boolean {
  const [first] = root.entries.values();
  if (first === undefined || Object.hasOwn(rootSchema(kind).properties ?? {}, first.key))
    return false;
  return first.value?.kind === 'scalar' && first.value.text === String(VERSIONS[kind]);
}

function moveToTop(text: string, root: LocatedMap, { start, end }: Range): TextFix {
  const top = root.range.start;
  const next = lineEnd(text, end, text.length);
  const edits = [
    { range: { start: top, end: top }, text: `${text.slice(start, end)}\n` },
    { range: { start, end: next }, text: '' },
  ];
  return { title: 'Move it to the top', edits, safe: true };
}

function ownKeys(kind: FileKind, root: LocatedMap, damaged: boolean): readonly Problem[] {
  const data: Record<string, unknown> = Object.create(null);
  for (const key of root.entries.keys()) data[key] = true;
  data[kind] ??= true;
  const validator = validators[kind].root;
  if (validator(data)) return [];
  const errors = (validator.errors ?? []).filter(({ instancePath }) => instancePath === '');
  return keyProblems(
    { path: [], node: root, entry: null, schema: rootSchema(kind), errors },
    damaged,
  ).problems;
}
