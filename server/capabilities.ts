// What the server can do, as it tells the client at the start.

import { type ServerCapabilities, TextDocumentSyncKind } from 'vscode-languageserver';
import { CODE_ACTION_KINDS } from './features/codeActions.ts';
import { FORMATTED_ON } from './features/formatting.ts';
import { TOKEN_MODIFIERS, TOKEN_TYPES } from './features/semanticTokens.ts';
import { FIND_PLACEMENTS, FIT_EQUALISER, FIT_ROOM, MOVE_OTHERS } from './protocol/commands.ts';

export const CAPABILITIES: ServerCapabilities = {
  textDocumentSync: TextDocumentSyncKind.Incremental,
  diagnosticProvider: {
    identifier: 'groundbass',
    interFileDependencies: true,
    workspaceDiagnostics: true,
  },
  inlayHintProvider: true,
  hoverProvider: true,
  completionProvider: { triggerCharacters: [' ', '.', '>', '{', ',', '[', ':'] },
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  callHierarchyProvider: true,
  documentSymbolProvider: { label: 'Groundbass' },
  workspaceSymbolProvider: true,
  documentLinkProvider: { resolveProvider: false },
  renameProvider: { prepareProvider: true },
  foldingRangeProvider: true,
  selectionRangeProvider: true,
  semanticTokensProvider: {
    legend: { tokenTypes: TOKEN_TYPES, tokenModifiers: TOKEN_MODIFIERS },
    full: true,
  },
  codeLensProvider: { resolveProvider: false },
  codeActionProvider: { codeActionKinds: CODE_ACTION_KINDS },
  executeCommandProvider: {
    commands: [FIND_PLACEMENTS, FIT_EQUALISER, MOVE_OTHERS, FIT_ROOM],
    workDoneProgress: true,
  },
  documentFormattingProvider: true,
  documentRangeFormattingProvider: true,
  documentOnTypeFormattingProvider: {
    firstTriggerCharacter: FORMATTED_ON.first,
    moreTriggerCharacter: FORMATTED_ON.more,
  },
  workspace: { workspaceFolders: { supported: true, changeNotifications: true } },
};
