// Starts what both hosts share: the client, the setup sheet, the commands and the status; nothing here waits for the server.

import * as vscode from 'vscode';
import { CLIENT_NAME, type MakeClient, prepareClient } from './client.ts';
import { registerCommands } from './commands/register.ts';
import { registerSheets } from './preview/sheets.ts';
import { Server } from './server.ts';
import { registerStatus } from './status.ts';

export function start(context: vscode.ExtensionContext, makeClient: MakeClient): void {
  const log = vscode.window.createOutputChannel(CLIENT_NAME, { log: true });
  const client = prepareClient(context, log, makeClient);
  const server = new Server(client);
  const sheets = registerSheets(context, server);
  registerCommands({ context, client, log, server, sheets });
  registerStatus(context, client);
  context.subscriptions.push(log);
  void vscode.commands.executeCommand('setContext', 'groundbass.active', true);
  client.start().catch((error: unknown) => {
    log.error(error instanceof Error ? error : String(error));
    void vscode.window.showErrorMessage(
      vscode.l10n.t('The Groundbass language server could not be started. The log says why.'),
    );
  });
}
