// A scripted client: speaks the protocol to a server over any pair of streams, as an editor would.

import type { Readable, Writable } from 'node:stream';
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node';
import type { Diagnostic, InitializeResult } from 'vscode-languageserver';

export interface Client {
  readonly rpc: MessageConnection;
  readonly initialized: InitializeResult;
  readonly open: (uri: string, text: string) => void;
  readonly change: (uri: string, version: number, text: string) => void;
  /** The next diagnostics that the server sends for this file. */
  readonly nextDiagnostics: (uri: string) => Promise<readonly Diagnostic[]>;
  /** Waits until what is sent for this file has that code, or has it no longer; what comes late of an older version is passed over. */
  readonly untilDiagnostics: (uri: string, code: string, isThere: boolean) => Promise<void>;
  /** All notifications of one name, as they come. */
  readonly notified: (method: string) => readonly unknown[];
  readonly stop: () => Promise<void>;
}

export interface ClientOptions {
  readonly folder: string;
  readonly pullsDiagnostics: boolean;
  readonly showsProgress?: boolean;
  readonly initializationOptions?: unknown;
  readonly settings?: unknown;
  /** Answers the server's own requests. */
  readonly answers?: Readonly<Record<string, (params: never) => unknown>>;
}

export async function connectClient(
  fromServer: Readable,
  toServer: Writable,
  options: ClientOptions,
): Promise<Client> {
  const reader = new StreamMessageReader(fromServer);
  return clientOver(createMessageConnection(reader, new StreamMessageWriter(toServer)), options);
}

/** The same over any way of sending messages. */
export async function clientOver(rpc: MessageConnection, options: ClientOptions): Promise<Client> {
  const waiting = new Map<string, ((items: readonly Diagnostic[]) => void)[]>();
  const notifications: { readonly method: string; readonly params: unknown }[] = [];
  rpc.onNotification((method, params) => {
    notifications.push({ method, params });
    if (method !== 'textDocument/publishDiagnostics') return;
    const { uri, diagnostics } = params as unknown as { uri: string; diagnostics: Diagnostic[] };
    for (const resolve of waiting.get(uri) ?? []) resolve(diagnostics);
    waiting.delete(uri);
  });
  rpc.onRequest((method, params) => {
    const answer = options.answers?.[method];
    if (answer) return answer((Array.isArray(params) ? params[0] : params) as never);
    if (method === 'workspace/configuration') return [options.settings ?? null];
    return null;
  });
  rpc.listen();
  const nextDiagnostics: Client['nextDiagnostics'] = (uri) =>
    new Promise((resolve) => waiting.set(uri, [...(waiting.get(uri) ?? []), resolve]));
  const initialized: InitializeResult = await rpc.sendRequest('initialize', {
    processId: process.pid,
    rootUri: options.folder,
    workspaceFolders: [{ uri: options.folder, name: 'test' }],
    initializationOptions: options.initializationOptions,
    capabilities: {
      ...(options.showsProgress ? { window: { workDoneProgress: true } } : {}),
      textDocument: {
        ...(options.pullsDiagnostics ? { diagnostic: {} } : {}),
        completion: { completionItem: { snippetSupport: true } },
      },
      workspace: {
        configuration: true,
        inlayHint: { refreshSupport: true },
        diagnostics: { refreshSupport: true },
      },
    },
  });
  await rpc.sendNotification('initialized', {});
  return {
    rpc,
    initialized,
    open: (uri, text) =>
      void rpc.sendNotification('textDocument/didOpen', {
        textDocument: { uri, languageId: 'groundbass-room', version: 1, text },
      }),
    change: (uri, version, text) =>
      void rpc.sendNotification('textDocument/didChange', {
        textDocument: { uri, version },
        contentChanges: [{ text }],
      }),
    nextDiagnostics,
    untilDiagnostics: async (uri, code, isThere) => {
      for (;;) {
        const items = await nextDiagnostics(uri);
        if (items.some((item) => item.code === code) === isThere) return;
      }
    },
    notified: (method) =>
      notifications.filter((one) => one.method === method).map(({ params }) => params),
    stop: async () => {
      await rpc.sendRequest('shutdown');
      await rpc.sendNotification('exit');
      rpc.dispose();
    },
  };
}
