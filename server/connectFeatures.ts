// The features of the protocol, one line each.

import {
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
  type WorkspaceDocumentDiagnosticReport,
} from 'vscode-languageserver';
import type { Analysis } from './analysis.ts';
import type { Shared } from './connect.ts';
import { incomingCalls, outgoingCalls, prepareCallHierarchy } from './features/callHierarchy.ts';
import { codeActions } from './features/codeActions.ts';
import { codeLenses } from './features/codeLenses.ts';
import { definition } from './features/definition.ts';
import { diagnostics } from './features/diagnostics.ts';
import { documentHighlights } from './features/documentHighlights.ts';
import { documentLinks } from './features/documentLinks.ts';
import { documentSymbols } from './features/documentSymbols.ts';
import { eqActions, eqLenses } from './features/eqActions.ts';
import { fitRoomActions } from './features/fitRoomActions.ts';
import { foldingRanges } from './features/foldingRanges.ts';
import { formatting, onTypeFormatting, rangeFormatting } from './features/formatting.ts';
import { inlayHints } from './features/inlayHints/inlayHints.ts';
import { moveActions } from './features/moveActions.ts';
import { placementActions, placementLenses } from './features/placementActions.ts';
import { recordActions } from './features/recordActions.ts';
import { references } from './features/references.ts';
import { prepareRename, rename } from './features/rename.ts';
import { selectionRange } from './features/selectionRanges.ts';
import { semanticTokens } from './features/semanticTokens.ts';
import { workspaceSymbols } from './features/workspaceSymbols.ts';
import { toOffset, toOffsets } from './lsp/convert.ts';
import { resultIdOf } from './lsp/resultId.ts';
import type { Searches } from './search/searches.ts';
import { guarded, serve } from './serve.ts';

/** Without a client that said so, there are no commands to click and no snippets to fill in. */
const NO_COMMANDS = { openPreview: null, showProblems: null, suggest: null };

export function connectFeatures(shared: Shared, searches: Searches): void {
  const { connection, session, client, docs, log } = shared;
  const on = serve(session, log);
  const at = (analysis: Analysis, position: { line: number; character: number }): number =>
    toOffset(analysis.source.text, position);

  // What is asked for by hand is loaded then: a room's first findings do not wait for it.
  connection.onHover(
    on('hover', null, async (a, { position }) => {
      const { hover } = await import('./features/hover.ts');
      return hover(a, at(a, position), docs());
    }),
  );
  connection.onCompletion(
    on('completion', [], async (a, { position }) => {
      const { completion } = await import('./features/completion/completion.ts');
      const { asksForFile } = await import('./features/completion/fileItems.ts');
      return completion(a, at(a, position), {
        takesSnippets: client()?.takesSnippets === true,
        suggest: client()?.commands.suggest ?? null,
        files: asksForFile(a, at(a, position)) ? await session.filesBeside(a.source.uri) : [],
      });
    }),
  );
  connection.onDefinition(on('definition', null, (a, p) => definition(a, at(a, p.position))));
  connection.onDocumentHighlight(
    on('highlight', [], (a, { position }) => documentHighlights(a, at(a, position))),
  );
  connection.onDocumentSymbol(on('symbols', [], documentSymbols));
  connection.onDocumentLinks(on('links', [], documentLinks));
  connection.onFoldingRanges(on('folding', [], foldingRanges));
  connection.onSelectionRanges(
    on('selection', [], (a, { positions }) =>
      positions.map((position) => selectionRange(a, at(a, position))),
    ),
  );
  connection.onPrepareRename(
    on('rename', null, (a, { position }) => prepareRename(a, at(a, position))),
  );
  connection.onRenameRequest(
    on('rename', null, async (a, { position, newName }) =>
      rename(a, at(a, position), newName, await session.all()),
    ),
  );
  connection.onReferences(
    on('references', [], async (a, { position, context }) =>
      references(a, at(a, position), await session.all(), context.includeDeclaration),
    ),
  );
  connectCallHierarchy(shared);
  connection.onWorkspaceSymbol(
    guarded(log, 'workspace symbols', [], async ({ query }) =>
      workspaceSymbols(await session.all(), query),
    ),
  );
  connection.languages.semanticTokens.on(on('tokens', { data: [] }, semanticTokens));
  connection.languages.inlayHint.on(
    on('hints', [], (a, { range }) => inlayHints(a, range, session.settings().hints)),
  );
  connectFormatting(shared);
  connectActions(shared, searches);
  connectDiagnostics(shared);
}

/** The signal's way. The second request is about an item, not a document: it says in which file it stands. */
function connectCallHierarchy({ connection, session, log }: Shared): void {
  const { callHierarchy } = connection.languages;
  callHierarchy.onPrepare(
    serve(session, log)('call hierarchy', [], (a, { position }) =>
      prepareCallHierarchy(a, toOffset(a.source.text, position)),
    ),
  );
  callHierarchy.onIncomingCalls(
    guarded(log, 'incoming calls', [], async ({ item }) => {
      const analysis = await session.analysis(item.uri);
      return analysis === null ? [] : incomingCalls(analysis, item.data);
    }),
  );
  callHierarchy.onOutgoingCalls(
    guarded(log, 'outgoing calls', [], async ({ item }) => {
      const analysis = await session.analysis(item.uri);
      return analysis === null ? [] : outgoingCalls(analysis, item.data);
    }),
  );
}

function connectFormatting({ connection, session, log }: Shared): void {
  const on = serve(session, log);
  connection.onDocumentFormatting(on('formatting', [], formatting));
  connection.onDocumentRangeFormatting(
    on('range formatting', [], (a, { range: { start, end } }) =>
      rangeFormatting(a, { first: start.line, last: end.line }),
    ),
  );
  connection.onDocumentOnTypeFormatting(
    on('formatting on typing', [], (a, { position, ch }) => onTypeFormatting(a, position, ch)),
  );
}

/** What can be clicked. */
function connectActions(
  { connection, session, client, log }: Shared,
  { placements, fits, moves }: Searches,
): void {
  const on = serve(session, log);
  connection.onCodeLens(
    on('lens', [], (a) => [
      ...codeLenses(a, client()?.commands ?? NO_COMMANDS),
      ...placementLenses(a),
      ...eqLenses(a),
    ]),
  );
  connection.onCodeAction(
    on('actions', [], (a, { range, context }) => {
      const offsets = toOffsets(a.source.text, range);
      return [
        ...codeActions(a, offsets, context.diagnostics, context.only),
        ...placementActions(a, offsets, placements, context.only),
        ...eqActions(a, offsets, fits, context.only),
        ...moveActions(a, offsets, moves, context.only),
        ...fitRoomActions(a, offsets, context.only),
        ...recordActions(a, offsets, context.only),
      ];
    }),
  );
}

function connectDiagnostics({ connection, session, docs, log }: Shared): void {
  const report = (analysis: Analysis, previous: string | undefined) => {
    const items = diagnostics(analysis, docs());
    const resultId = resultIdOf(items);
    return resultId === previous
      ? ({ kind: DocumentDiagnosticReportKind.Unchanged, resultId } as const)
      : ({ kind: DocumentDiagnosticReportKind.Full, resultId, items } as const);
  };
  const nothing: DocumentDiagnosticReport = {
    kind: DocumentDiagnosticReportKind.Full,
    items: [],
  };

  connection.languages.diagnostics.on(
    guarded<DocumentDiagnosticParams, DocumentDiagnosticReport>(
      log,
      'diagnostics',
      nothing,
      async ({ textDocument, previousResultId }) => {
        const analysis = await session.analysis(textDocument.uri);
        return analysis === null ? nothing : report(analysis, previousResultId);
      },
    ),
  );
  connection.languages.diagnostics.onWorkspace(
    guarded(log, 'workspace diagnostics', { items: [] }, async ({ previousResultIds }) => {
      const previous = new Map(previousResultIds.map(({ uri, value }) => [uri, value]));
      const items: WorkspaceDocumentDiagnosticReport[] = [];
      for (const analysis of await session.all()) {
        const { uri, version } = analysis.source;
        items.push({ ...report(analysis, previous.get(uri)), uri, version });
      }
      return { items };
    }),
  );
}
