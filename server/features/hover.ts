// Hover: what a key means, what it refers to, what is computed about it and from what, and what was found there.

import { type Hover, MarkupKind } from 'vscode-languageserver';
import { showFor } from '../../core/show.ts';
import { schemaAt } from '../../schema/describe.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Path } from '../../schema/model/path.ts';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { nameRange, placeOf } from '../places.ts';
import { explanationsAbout } from '../words/about.ts';
import { code, markdownOf } from '../words/explanation.ts';
import { keyMarkdown } from '../words/keyWords.ts';
import { referenceMarkdown } from '../words/referenceWords.ts';
import { remarkMarkdown } from '../words/remarkWords.ts';
import { pageOf } from './diagnostics.ts';

/** @param docs where the pages of the findings lie; null where nobody knows */
export function hover(analysis: Analysis, offset: number, docs: string | null): Hover | null {
  const { source, setup } = analysis;
  const path = pathAt(source.parsed, offset);
  const parts = [
    ...(path === null ? [] : aboutKey(analysis, path)),
    ...(path === null || setup === null
      ? []
      : explanationsAbout(setup, path, showFor(setup.room.habits)).map(markdownOf)),
    ...aboutReference(analysis, offset),
    ...analysis.remarks
      .filter(({ range }) => range.start <= offset && offset <= range.end)
      .map((remark) => {
        const page = pageOf(docs, remark.code);
        return remarkMarkdown(remark) + (page === null ? '' : `\n\n[More](${page})`);
      }),
  ];
  if (parts.length === 0) return null;
  const range = path === null ? null : hoveredRange(analysis, path, offset);
  return {
    contents: { kind: MarkupKind.Markdown, value: parts.join('\n\n---\n\n') },
    ...(range === null ? {} : { range: toRange(source.text, range) }),
  };
}

function aboutKey({ source: { parsed } }: Analysis, path: Path): readonly string[] {
  const place = schemaAt(parsed.kind, path, parsed.root);
  const text = place === null ? '' : keyMarkdown(place.schema);
  const key = path[path.length - 1];
  if (text === '' || key === undefined) return [];
  return [/^\d+$/.test(key) ? text : `**${code(key)}**\n\n${text}`];
}

function aboutReference(analysis: Analysis, offset: number): readonly string[] {
  return analysis.references
    .filter(({ range }) => range.start <= offset && offset <= range.end)
    .flatMap((reference) => referenceMarkdown(analysis, reference) ?? []);
}

/** The key where the cursor is on the key, the scalar where it is on one, else nothing in particular. */
function hoveredRange({ source: { parsed } }: Analysis, path: Path, offset: number): Range | null {
  const key = nameRange(parsed, path);
  if (key !== null && key.start <= offset && offset <= key.end) return key;
  const value = placeOf(parsed, path)?.value;
  return value?.kind === 'scalar' ? value.range : null;
}
