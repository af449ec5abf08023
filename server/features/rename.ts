// Rename: gives a name another, where it is defined and wherever it stands, across the files given.

import {
  LSPErrorCodes,
  type Range as LspRange,
  ResponseError,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import type { Analysis } from '../analysis.ts';
import { toRange } from '../lsp/convert.ts';
import { definitionOf, type Named, nameAt, nameText, placesOf } from '../names.ts';
import { placeOf } from '../places.ts';

export function prepareRename(
  analysis: Analysis,
  offset: number,
): { range: LspRange; placeholder: string } | null {
  const found = nameAt(analysis, offset);
  if (found === null || definitionOf([analysis], found.named) === null) return null;
  const { source } = analysis;
  return {
    range: toRange(source.text, found.range),
    placeholder: nameText(source, found.range),
  };
}

/** @throws ResponseError, told to the user, for a new name that cannot stand */
export function rename(
  analysis: Analysis,
  offset: number,
  newName: string,
  all: readonly Analysis[],
): WorkspaceEdit | null {
  const found = nameAt(analysis, offset);
  if (found === null) return null;
  const analyses = [analysis, ...all];
  const fault = faultOf(analyses, found.named, newName);
  if (fault !== null) throw new ResponseError(LSPErrorCodes.RequestFailed, fault);
  const changes: Record<string, TextEdit[]> = {};
  const sources = new Map(
    analyses.flatMap(({ source, surroundings: { facility, gear } }) =>
      [source, ...gear, ...(facility ? [facility] : [])].map((one) => [one.uri, one] as const),
    ),
  );
  for (const { uri, range } of placesOf(analyses, found.named)) {
    const source = sources.get(uri);
    if (!source) continue;
    changes[uri] = [
      ...(changes[uri] ?? []),
      { range: toRange(source.text, range), newText: newName },
    ];
  }
  return { changes };
}

/** Words that YAML or the format read as something else. */
const RESERVED = new Set([
  'unknown',
  'absent',
  'on',
  'off',
  'yes',
  'no',
  'y',
  'n',
  'true',
  'false',
  'null',
]);

/** Maps that share their names. */
const SHARED = ['speakers', 'subwoofers', 'devices'];

function faultOf(analyses: readonly Analysis[], named: Named, newName: string): string | null {
  if (!/^[a-z][a-z0-9_]*$/.test(newName))
    return `A name starts with a small letter and goes on with small letters, digits and _: \`${newName}\` does not`;
  if (RESERVED.has(newName)) return `\`${newName}\` means something else and cannot be a name`;
  const definition = definitionOf(analyses, named);
  const [section] = named.path;
  if (definition === null || section === undefined || named.path.length !== 2) return null;
  const sections = SHARED.includes(section) ? SHARED : [section];
  const taken = sections.find((one) => placeOf(definition.source.parsed, [one, newName]));
  return taken === undefined ? null : `\`${newName}\` is already a name under \`${taken}\``;
}
