// Workspace symbols: every name of the facility, found by any part of it.

import { SymbolKind, type WorkspaceSymbol } from 'vscode-languageserver';
import type { FileKind } from '../../schema/model/parsedFile.ts';
import type { Analysis } from '../analysis.ts';
import { baseName } from '../files/uri.ts';
import { toRange } from '../lsp/convert.ts';
import { entriesOf, placeOf } from '../places.ts';

/** More than this many are of no use to a reader. */
const MOST = 500;

export function workspaceSymbols(all: readonly Analysis[], query: string): WorkspaceSymbol[] {
  const wanted = query.toLowerCase();
  return all
    .flatMap(({ source }) => {
      const container = roomName(source.parsed.root) ?? baseName(source.uri);
      return SECTIONS[source.parsed.kind].flatMap(([section, kind]) =>
        entriesOf(placeOf(source.parsed, [section])?.value).map(({ key, keyRange }) => ({
          name: key,
          kind,
          containerName: `${container} › ${section}`,
          location: { uri: source.uri, range: toRange(source.text, keyRange) },
        })),
      );
    })
    .filter(({ name }) => isWithin(wanted, name.toLowerCase()))
    .slice(0, MOST);
}

const SECTIONS: Readonly<Record<FileKind, readonly (readonly [string, SymbolKind])[]>> = {
  room: [
    ['seats', SymbolKind.Object],
    ['speakers', SymbolKind.Object],
    ['subwoofers', SymbolKind.Object],
    ['devices', SymbolKind.Object],
    ['sets', SymbolKind.Object],
    ['circuits', SymbolKind.Object],
    ['sessions', SymbolKind.Event],
  ],
  gear: [['models', SymbolKind.Class]],
  facility: [
    ['policies', SymbolKind.Interface],
    ['items', SymbolKind.Object],
  ],
};

function roomName(root: Analysis['source']['parsed']['root']): string | null {
  const name = root?.kind === 'map' ? root.entries.get('name')?.value : null;
  return name?.kind === 'scalar' ? name.text : null;
}

/** Whether the letters stand in the name in this order: how editors filter too. */
function isWithin(letters: string, name: string): boolean {
  let from = 0;
  for (const letter of letters) {
    from = name.indexOf(letter, from) + 1;
    if (from === 0) return false;
  }
  return true;
}
