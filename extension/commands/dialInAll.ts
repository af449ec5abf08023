// Puts every computed setting that the file does not have yet, or has otherwise, into the file: one step to undo.

import * as vscode from 'vscode';
import { makeEdits } from '../edit.ts';
import type { Server } from '../server.ts';

export async function dialInAll(server: Server, room: vscode.Uri): Promise<void> {
  const document = await vscode.workspace.openTextDocument(room);
  const { setup, version } = await server.setup(room);
  const open = (setup?.advice ?? []).filter(({ agrees, fix }) => agrees !== true && fix !== null);
  if (open.length === 0) {
    void vscode.window.showInformationMessage(
      vscode.l10n.t('There is nothing to dial in: every computed setting agrees with the file.'),
    );
    return;
  }
  const edits = open.flatMap(({ fix }) => fix?.edits ?? []);
  const done = await makeEdits(server, document, version, edits);
  void vscode.window.showInformationMessage(
    done
      ? vscode.l10n.t('Settings put into the file: {0}. Set the devices by hand.', open.length)
      : vscode.l10n.t('The text has changed in the meantime; nothing was dialled in.'),
  );
}
