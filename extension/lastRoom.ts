// The room that was last worked on: what a command means where no text editor is active, as in the walkthrough.

import * as vscode from 'vscode';
import { isRoom } from './languages.ts';

/** Context key: a room has been looked at in this window; the walkthrough ticks its step by it. */
const SEEN = 'groundbass.roomSeen';

/** @returns of those that still have a tab; null where there is none */
export function followLastRoom(context: vscode.ExtensionContext): () => vscode.Uri | null {
  // The last one first.
  let rooms: readonly vscode.Uri[] = [];
  const follow = (editor: vscode.TextEditor | undefined): void => {
    if (!isRoom(editor?.document)) return;
    const { uri } = editor.document;
    rooms = [uri, ...rooms.filter((one) => one.toString() !== uri.toString())];
    void vscode.commands.executeCommand('setContext', SEEN, true);
  };
  follow(vscode.window.activeTextEditor);
  context.subscriptions.push(vscode.window.onDidChangeActiveTextEditor(follow));
  return () => rooms.find(isInTab) ?? null;
}

function isInTab(uri: vscode.Uri): boolean {
  return vscode.window.tabGroups.all.some(({ tabs }) =>
    tabs.some(
      ({ input }) =>
        input instanceof vscode.TabInputText && input.uri.toString() === uri.toString(),
    ),
  );
}
