// The room that was last worked on: what a command means where no text editor is active, as in the walkthrough.

import * as vscode from 'vscode';
import { isRoom } from './languages.ts';

/**
 * Context key: true for the moment in which a room comes to the front. The walkthrough ticks its step when a key becomes true after it was
 * opened, and never by one that was true before.
 */
const SEEN = 'groundbass.roomSeen';

/** @returns of those that still have a tab; null where there is none */
export function followLastRoom(context: vscode.ExtensionContext): () => vscode.Uri | null {
  // The last one first.
  let rooms: readonly vscode.Uri[] = [];
  const follow = (editor: vscode.TextEditor | undefined): void => {
    if (!isRoom(editor?.document)) return;
    const { uri } = editor.document;
    rooms = [uri, ...rooms.filter((one) => one.toString() !== uri.toString())];
    for (const isNow of [true, false])
      void vscode.commands.executeCommand('setContext', SEEN, isNow);
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
