// Completion: what may stand under the cursor, by the schema and by the names of the room, its gear and its facility.

import {
  type CompletionItem,
  InsertTextFormat,
  InsertTextMode,
  MarkupKind,
} from 'vscode-languageserver';
import { schemaAt } from '../../../schema/describe.ts';
import type { Analysis } from '../../analysis.ts';
import { toRange } from '../../lsp/convert.ts';
import { entriesOf, placeOf } from '../../places.ts';
import { type CursorContext, cursorContext } from './cursorContext.ts';
import type { Item } from './item.ts';
import { keyItems } from './keyItems.ts';
import { valueItems } from './valueItems.ts';

/** What the client can do with an item. */
export interface CompletionOptions {
  readonly takesSnippets: boolean;
  /** The client's command that asks for completion again; null where it has none. */
  readonly suggest: string | null;
  /** Files beside the room, where one is named at the cursor; relative to its folder. */
  readonly files?: readonly string[];
}

export function completion(
  analysis: Analysis,
  offset: number,
  { takesSnippets, suggest, files = [] }: CompletionOptions,
): CompletionItem[] {
  const { parsed } = analysis.source;
  const context = cursorContext(parsed.text, offset);
  if (context === null) return [];
  const place = schemaAt(parsed.kind, context.path, parsed.root);
  if (place === null) return [];
  const items =
    context.wants === 'key'
      ? keyItems(analysis, context, place, presentKeys(analysis, context), takesSnippets)
      : valueItems(analysis, context, place.schema, { takesSnippets, files });
  return unique(items).map((item, index) =>
    completionItem(analysis, context, item, { index, suggest }),
  );
}

/** Keys that stand in the map already; the one under the cursor may be written again. */
function presentKeys(
  { source: { parsed } }: Analysis,
  { path, seenKeys, replace }: CursorContext,
): ReadonlySet<string> {
  const entries = entriesOf(placeOf(parsed, path)?.value);
  const others = entries.filter(
    ({ keyRange }) => keyRange.end < replace.start || replace.end < keyRange.start,
  );
  return new Set([...others.map(({ key }) => key), ...seenKeys]);
}

function completionItem(
  { source }: Analysis,
  context: CursorContext,
  item: Item,
  { index, suggest }: { readonly index: number; readonly suggest: string | null },
): CompletionItem {
  const newText = context.before + item.text + context.after;
  return {
    label: item.label,
    kind: item.kind,
    sortText: `${item.rank}${String(index).padStart(4, '0')}`,
    textEdit: { range: toRange(source.text, context.replace), newText },
    insertTextFormat: item.isSnippet ? InsertTextFormat.Snippet : InsertTextFormat.PlainText,
    // Line breaks in the text carry their full indent.
    ...(newText.includes('\n') ? { insertTextMode: InsertTextMode.asIs } : {}),
    ...(item.filter === null && context.before === ''
      ? {}
      : { filterText: item.filter ?? item.label }),
    ...(item.detail === null ? {} : { labelDetails: { description: item.detail } }),
    ...(item.documentation === null
      ? {}
      : { documentation: { kind: MarkupKind.Markdown, value: item.documentation } }),
    ...(item.asksAgain && suggest !== null
      ? { command: { title: 'Suggest', command: suggest } }
      : {}),
  };
}

function unique(items: readonly Item[]): readonly Item[] {
  const seen = new Set<string>();
  return items.filter(({ label }) => !seen.has(label) && seen.add(label));
}
