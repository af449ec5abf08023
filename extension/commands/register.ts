// Every command of the manifest and the function that carries it out.

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { isRoom } from '../languages.ts';
import { followLastRoom } from '../lastRoom.ts';
import { showSource } from '../preview/pane.ts';
import type { Sheets } from '../preview/sheets.ts';
import type { Server } from '../server.ts';
import { createSample } from './createSample.ts';
import { dialInAll } from './dialInAll.ts';
import { openSheetInBrowser, saveSheet } from './exportSheet.ts';
import { toggleHints } from './toggleHints.ts';

export interface Parts {
  readonly context: vscode.ExtensionContext;
  readonly client: BaseLanguageClient;
  readonly log: vscode.LogOutputChannel;
  readonly server: Server;
  readonly sheets: Sheets;
}

export function registerCommands({ context, client, log, server, sheets }: Parts): void {
  const lastRoom = followLastRoom(context);
  /** The room meant: the file clicked (in the explorer, or on the server's lens), the active sheet's, the active editor's, or the last one's. */
  const withRoom =
    (act: (uri: vscode.Uri) => unknown) =>
    async (clicked?: unknown): Promise<void> => {
      const document = vscode.window.activeTextEditor?.document;
      const active = sheets.active?.uri ?? (isRoom(document) ? document.uri : undefined);
      const uri = roomOf(clicked) ?? active ?? lastRoom();
      if (uri) await act(uri);
      else void vscode.window.showInformationMessage(vscode.l10n.t('Open a room file first.'));
    };
  const commands: Readonly<Record<string, (...args: unknown[]) => unknown>> = {
    // A second argument is a place in the room: the lens on a take leads to its curve.
    openSheet: (clicked, place) => withRoom((uri) => sheets.open(uri, readPath(place)))(clicked),
    keepThisRoom: () => sheets.keepActive(true),
    followActiveRoom: () => sheets.keepActive(false),
    showSource: withRoom((uri) => showSource(uri)),
    saveSheet: withRoom((uri) => saveSheet(server, uri)),
    openSheetInBrowser: withRoom((uri) => openSheetInBrowser(context, server, uri)),
    dialInAll: withRoom((uri) => dialInAll(server, uri)),
    toggleHints,
    createSample: () => createSample(context.extensionUri),
    restartServer: async () => {
      if (client.isRunning()) await client.stop();
      await client.start();
    },
    showLog: () => log.show(),
  };
  for (const [name, act] of Object.entries(commands)) {
    context.subscriptions.push(vscode.commands.registerCommand(`groundbass.${name}`, act));
  }
}

function readPath(place: unknown): readonly string[] | null {
  return Array.isArray(place) && place.every((key) => typeof key === 'string') ? place : null;
}

function roomOf(clicked: unknown): vscode.Uri | undefined {
  if (typeof clicked === 'string') return vscode.Uri.parse(clicked);
  return clicked instanceof vscode.Uri && clicked.scheme !== 'webview-panel' ? clicked : undefined;
}
