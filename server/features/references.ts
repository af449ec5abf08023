// References: every place that a name stands in, across the files given.

import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { nameAt, placesOf } from '../names.ts';

export function references(
  analysis: Analysis,
  offset: number,
  all: readonly Analysis[],
  includeDeclaration: boolean,
): Location[] {
  const found = nameAt(analysis, offset);
  if (found === null) return [];
  const texts = new Map([analysis, ...all].map(({ source }) => [source.uri, source.text]));
  return placesOf([analysis, ...all], found.named)
    .filter(({ isDefinition }) => includeDeclaration || !isDefinition)
    .flatMap(({ uri, range }) => {
      const text = texts.get(uri);
      return text ? [{ uri, range: toRange(text, range) }] : [];
    });
}
