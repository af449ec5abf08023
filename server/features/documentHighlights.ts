// Highlights: the other places in this file where the name under the cursor stands.

import { type DocumentHighlight, DocumentHighlightKind } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { nameAt, placesOf } from '../names.ts';

export function documentHighlights(analysis: Analysis, offset: number): DocumentHighlight[] {
  const found = nameAt(analysis, offset);
  if (found === null) return [];
  const { uri, text } = analysis.source;
  return placesOf([analysis], found.named)
    .filter((place) => place.uri === uri)
    .map(({ range, isDefinition }) => ({
      range: toRange(text, range),
      kind: isDefinition ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
    }));
}
