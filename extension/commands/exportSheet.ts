// Takes the setup sheet out of the editor: as one HTML file to keep, send or print, or straight into the browser.

import * as vscode from 'vscode';
import { roomName } from '../languages.ts';
import type { Server } from '../server.ts';

export async function saveSheet(server: Server, room: vscode.Uri): Promise<void> {
  const html = await sheetHtml(server, room);
  if (html === null) return;
  const defaultUri = room.with({ path: `${folderOf(room)}${roomName(room)}.html` });
  const target = await vscode.window.showSaveDialog({
    defaultUri,
    filters: { HTML: ['html'] },
    title: vscode.l10n.t('Save the setup sheet'),
  });
  if (!target) return;
  await vscode.workspace.fs.writeFile(target, new TextEncoder().encode(html));
  void vscode.window.setStatusBarMessage(
    vscode.l10n.t('Setup sheet saved: {0}', vscode.workspace.asRelativePath(target)),
    5000,
  );
}

/** Printing starts here: a pane of the editor cannot be printed, a browser's page can. */
export async function openSheetInBrowser(
  context: vscode.ExtensionContext,
  server: Server,
  room: vscode.Uri,
): Promise<void> {
  const html = await sheetHtml(server, room);
  if (html === null) return;
  const folder = context.globalStorageUri;
  const file = vscode.Uri.joinPath(folder, `${roomName(room)}.html`);
  await vscode.workspace.fs.createDirectory(folder);
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(html));
  await vscode.env.openExternal(file);
}

async function sheetHtml(server: Server, room: vscode.Uri): Promise<string | null> {
  await vscode.workspace.openTextDocument(room);
  const answer = await server.sheet(room);
  if (answer) return answer.html;
  void vscode.window.showWarningMessage(
    vscode.l10n.t(
      'There is no setup sheet of {0}: it is no room that can be read.',
      roomName(room),
    ),
  );
  return null;
}

function folderOf(uri: vscode.Uri): string {
  return uri.path.slice(0, uri.path.lastIndexOf('/') + 1);
}
