// Files beside a room, for `file`, `correction` and what else names one: measurements and corrections, by their path from its folder.

import { CompletionItemKind } from 'vscode-languageserver';
import { referenceKinds, schemaAt } from '../../../schema/describe.ts';
import type { Analysis } from '../../analysis.ts';
import { cursorContext } from './cursorContext.ts';
import { type Item, valueItem } from './item.ts';

/** Whether a file is named at the cursor, so that nobody looks for files in vain. */
export function asksForFile({ source: { parsed } }: Analysis, offset: number): boolean {
  const context = cursorContext(parsed.text, offset);
  if (context === null || context.wants === 'key') return false;
  const place = schemaAt(parsed.kind, context.path, parsed.root);
  return place !== null && referenceKinds(place.schema).includes('file');
}

/** @param files relative to the room's folder; those that the room names already come last */
export function fileItems(files: readonly string[], analysis: Analysis): readonly Item[] {
  const named = new Set(
    analysis.references.filter(({ kind }) => kind === 'file').map(({ id }) => id),
  );
  return files.map((file) =>
    valueItem(file, CompletionItemKind.File, {
      detail: named.has(file) ? 'named already' : null,
      rank: named.has(file) ? 1 : 0,
    }),
  );
}
