// The extension on a desktop or a remote machine: the server is a Node process of its own, spoken to over IPC.

import type { ExtensionContext } from 'vscode';
import { LanguageClient, TransportKind } from 'vscode-languageclient/node';
import { CLIENT_ID, CLIENT_NAME } from './client.ts';
import { start } from './start.ts';

export function activate(context: ExtensionContext): void {
  const module = context.asAbsolutePath('dist/server/node.mjs');
  const transport = TransportKind.ipc;
  start(
    context,
    (options) =>
      new LanguageClient(
        CLIENT_ID,
        CLIENT_NAME,
        { run: { module, transport }, debug: { module, transport } },
        options,
      ),
  );
}
