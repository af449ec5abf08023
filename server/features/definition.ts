// Go to definition: from a name to where it is defined, across files; from a file's name to the file.

import type { Location } from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { definitionOf, nameAt } from '../names.ts';
import { fileReferences } from './documentLinks.ts';

export function definition(analysis: Analysis, offset: number): Location | null {
  const file = fileReferences(analysis).find(
    ({ range }) => range.start <= offset && offset <= range.end,
  );
  if (file) return { uri: file.uri, range: START };
  const found = nameAt(analysis, offset);
  if (found === null) return null;
  const place = definitionOf([analysis], found.named);
  return place === null
    ? null
    : { uri: place.source.uri, range: toRange(place.source.text, place.range) };
}

const START = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
