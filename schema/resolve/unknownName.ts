// A name that nothing has: the message with near names, and the fixes that put one in its place.

import type { Range } from '../model/located.ts';
import type { TextFix } from '../model/problem.ts';
import { nearNames } from '../near.ts';
import type { Told } from './reading.ts';

export interface UnknownName {
  readonly code: string;
  /** "No gear model is called": what stands before the name. */
  readonly lead: string;
  readonly name: string;
  readonly range: Range;
  readonly known: readonly string[];
  /** "the gear models": named with the list where nothing is near. */
  readonly plural: string;
}

export function unknownName(unknown: UnknownName): Told {
  const near = nearNames(unknown.name, candidates(unknown));
  return {
    code: unknown.code,
    message: `${unknown.lead} \`${unknown.name}\`${help(unknown, near)}`,
    fixes: near.map((name) => replaceWord(unknown.name, name, unknown.range)),
  };
}

/** Among very many names only those are compared that begin alike, so that a hostile file costs no more than a blink. */
const MOST_COMPARED = 400;

function candidates({ name, known }: UnknownName): readonly string[] {
  if (known.length <= MOST_COMPARED) return known;
  return known.filter((other) => other.startsWith(name.slice(0, 1))).slice(0, MOST_COMPARED);
}

/** A fix that puts another word in the place of one. */
export function replaceWord(old: string, name: string, range: Range): TextFix {
  return {
    title: `Change \`${old}\` to \`${name}\``,
    edits: [{ range, text: name }],
    safe: false,
  };
}

function help(unknown: UnknownName, near: readonly string[]): string {
  if (near.length !== 0) return `; did you mean ${listed(near, 'or')}?`;
  if (unknown.known.length === 0) return `; there are no ${unknown.plural}`;
  if (unknown.known.length <= 8) return `; ${unknown.plural} here: ${listed(unknown.known, 'and')}`;
  return '';
}

/** "`a`, `b` or `c`" */
export function listed(names: readonly string[], joint: 'and' | 'or'): string {
  const marked = names.map((name) => `\`${name}\``);
  const last = marked.at(-1) ?? '';
  return marked.length < 2 ? last : `${marked.slice(0, -1).join(', ')} ${joint} ${last}`;
}
