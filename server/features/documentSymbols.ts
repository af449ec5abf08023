// Document symbols: the outline of a file by meaning, with what each thing is beside its name.

import { type DocumentSymbol, SymbolKind } from 'vscode-languageserver';
import type { LocatedEntry } from '../../schema/model/located.ts';
import type { Analysis, Source } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { entriesOf } from '../places.ts';

export function documentSymbols({ source }: Analysis): DocumentSymbol[] {
  return entriesOf(source.parsed.root).map((entry) => sectionSymbol(source, entry));
}

/** Sections that hold things by name. */
const THINGS: Readonly<Record<string, SymbolKind>> = {
  seats: SymbolKind.Object,
  speakers: SymbolKind.Object,
  subwoofers: SymbolKind.Object,
  devices: SymbolKind.Object,
  models: SymbolKind.Class,
  items: SymbolKind.Object,
  policies: SymbolKind.Interface,
  circuits: SymbolKind.Object,
  sets: SymbolKind.Object,
  cables: SymbolKind.Object,
  settings: SymbolKind.Property,
  sessions: SymbolKind.Event,
  alternatives: SymbolKind.Object,
  accepted: SymbolKind.Object,
  listening: SymbolKind.Event,
};

function sectionSymbol(source: Source, entry: LocatedEntry): DocumentSymbol {
  const thing = THINGS[entry.key];
  const kind = thing === undefined ? scalarOr(entry, SymbolKind.Module) : SymbolKind.Namespace;
  return {
    ...symbolOf(source, entry, kind),
    children: entriesOf(entry.value).map((child) => ({
      ...symbolOf(source, child, thing ?? scalarOr(child, SymbolKind.Struct)),
      children: entry.key === 'sessions' ? takes(source, child) : [],
    })),
  };
}

function takes(source: Source, session: LocatedEntry): DocumentSymbol[] {
  const map = session.value?.kind === 'map' ? session.value.entries.get('takes')?.value : null;
  return entriesOf(map).map((take) => symbolOf(source, take, SymbolKind.File));
}

function symbolOf({ text }: Source, entry: LocatedEntry, kind: SymbolKind): DocumentSymbol {
  const range = toRange(text, entry.range);
  return {
    name: entry.key === '' ? '""' : entry.key,
    detail: detailOf(entry),
    kind,
    range,
    selectionRange: toRange(text, entry.keyRange),
  };
}

/** What tells things of one section apart: a scalar's text, else gear, item, channel, role, kind or date of a map. */
function detailOf({ value }: LocatedEntry): string {
  if (value?.kind === 'scalar') return firstLine(value.text);
  if (value?.kind !== 'map') return '';
  return ['gear', 'item', 'channel', 'role', 'kind', 'material', 'date', 'finding']
    .flatMap((key) => {
      const one = value.entries.get(key)?.value;
      return one?.kind === 'scalar' ? [firstLine(one.text)] : [];
    })
    .join(' · ');
}

function firstLine(text: string): string {
  const line = text.trim().split('\n', 1)[0] ?? '';
  return line.length <= 60 ? line : `${line.slice(0, 59)}…`;
}

function scalarOr({ value }: LocatedEntry, kind: SymbolKind): SymbolKind {
  return value?.kind === 'scalar' ? SymbolKind.String : kind;
}
