// Edits: cures and settings as text edits of one file's version. All editing by meaning goes through the schema's editor.

import type { Fix, SemanticEdit } from '../core/finding.ts';
import { editText } from '../schema/edit.ts';
import type { TextEdit } from '../schema/model/problem.ts';
import type { Source } from './analysis.ts';
import type { Remark } from './remarks/remark.ts';

/** null where a path is gone, so that nothing half-right is written. */
export function editsOf(
  { parsed }: Source,
  edits: readonly SemanticEdit[],
): readonly TextEdit[] | null {
  if (edits.length === 0) return null;
  return editText(parsed, edits);
}

/** A cure that can be taken: its title and what it does to the text. */
export interface Cure {
  readonly title: string;
  readonly edits: readonly TextEdit[];
  readonly safe: boolean;
}

/** The cures of a remark, best first. */
export function curesOf(source: Source, remark: Remark): readonly Cure[] {
  return [
    ...remark.textFixes,
    ...remark.fixes.flatMap(({ title, edits, safe }: Fix) => {
      const text = editsOf(source, edits);
      return text === null ? [] : [{ title, edits: text, safe }];
    }),
  ];
}

/**
 * All safe cures of these remarks together. Where two would touch the same text the first one wins; a second run takes the rest.
 *
 * @returns in the text's order
 */
export function safeEdits(source: Source, remarks: readonly Remark[]): readonly TextEdit[] {
  const taken: TextEdit[] = [];
  for (const remark of remarks) {
    if (remark.accepted !== null) continue;
    const cure = curesOf(source, remark).find(({ safe }) => safe);
    if (cure?.edits.every((edit) => !taken.some((other) => touch(edit, other))))
      taken.push(...cure.edits);
  }
  return taken.sort((one, other) => one.range.start - other.range.start);
}

/** The text after the edits. They do not overlap. */
export function applied(text: string, edits: readonly TextEdit[]): string {
  let after = '';
  let from = 0;
  for (const edit of [...edits].sort((one, other) => one.range.start - other.range.start)) {
    after += text.slice(from, edit.range.start) + edit.text;
    from = edit.range.end;
  }
  return after + text.slice(from);
}

function touch(one: TextEdit, other: TextEdit): boolean {
  return one.range.start <= other.range.end && other.range.start <= one.range.end;
}
