// Document links: files that a room names (measurements, corrections) become clickable where they lie inside the fence.

import type { DocumentLink } from 'vscode-languageserver';
import type { Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { folderOf, isBelow, join } from '../files/uri.ts';
import { toRange } from '../lsp/convert.ts';

export function documentLinks(analysis: Analysis): DocumentLink[] {
  return fileReferences(analysis).map(({ range, uri }) => ({
    range: toRange(analysis.source.text, range),
    target: uri,
  }));
}

/** The files named in a file, as URIs; those that lead out of the fence are left out. */
export function fileReferences({
  source,
  references,
  surroundings,
}: Analysis): readonly { readonly range: Range; readonly uri: string }[] {
  return references.flatMap(({ kind, id, range }) => {
    if (kind !== 'file' || /^[a-z][a-z0-9+.-]*:/i.test(id) || id.startsWith('/')) return [];
    const uri = join(folderOf(source.uri), id);
    return isBelow(uri, surroundings.fence) ? [{ range, uri }] : [];
  });
}
