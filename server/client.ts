// The client: what the editor at the other end can do, read once from what it says at the start.

import type { ClientCapabilities, InitializeParams } from 'vscode-languageserver';
import type { ClientCommands } from './features/codeLenses.ts';

export interface Client {
  readonly folders: readonly string[];
  /** It asks for diagnostics itself, so that none are sent. */
  readonly pullsDiagnostics: boolean;
  readonly refreshesDiagnostics: boolean;
  readonly refreshesHints: boolean;
  readonly refreshesLenses: boolean;
  readonly changesFolders: boolean;
  readonly hasConfiguration: boolean;
  readonly watchesFiles: boolean;
  readonly takesSnippets: boolean;
  readonly showsProgress: boolean;
  readonly commands: ClientCommands;
  /** Where the pages of the findings lie; null where the client does not say. */
  readonly docs: string | null;
}

/** What a client may say in `initializationOptions`, all of it optional. */
export interface InitializationOptions {
  readonly commands?: {
    readonly openSheet?: string;
    readonly showProblems?: string;
    readonly suggest?: string;
  };
  readonly docs?: string;
}

export function readClient(params: InitializeParams): Client {
  const { textDocument, workspace, window }: ClientCapabilities = params.capabilities;
  const options = readOptions(params.initializationOptions);
  const root = params.rootUri === null ? [] : [params.rootUri];
  return {
    folders: params.workspaceFolders?.map(({ uri }) => uri) ?? root,
    pullsDiagnostics: textDocument?.diagnostic !== undefined,
    refreshesDiagnostics: workspace?.diagnostics?.refreshSupport === true,
    refreshesHints: workspace?.inlayHint?.refreshSupport === true,
    refreshesLenses: workspace?.codeLens?.refreshSupport === true,
    changesFolders: workspace?.workspaceFolders === true,
    hasConfiguration: workspace?.configuration === true,
    watchesFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration === true,
    takesSnippets: textDocument?.completion?.completionItem?.snippetSupport === true,
    showsProgress: window?.workDoneProgress === true,
    commands: {
      openPreview: options.commands?.openSheet ?? null,
      showProblems: options.commands?.showProblems ?? null,
      suggest: options.commands?.suggest ?? null,
    },
    docs: options.docs ?? null,
  };
}

function readOptions(given: unknown): InitializationOptions {
  return typeof given === 'object' && given !== null ? given : {};
}
