// Makes one change of a room file from edits by meaning: one step to undo, one after another.

import * as vscode from 'vscode';
import type { EditParams } from '../server/protocol/edits.ts';
import type { Server } from './server.ts';

export type SemanticEdits = EditParams['edits'];

/** @returns whether the file was changed; false where its text has moved on since `version` */
export async function makeEdits(
  server: Server,
  document: vscode.TextDocument,
  version: number,
  edits: SemanticEdits,
): Promise<boolean> {
  const textEdits = await server.textEdits(document, version, edits);
  if (!textEdits) return false;
  const change = new vscode.WorkspaceEdit();
  change.set(document.uri, [...textEdits]);
  return vscode.workspace.applyEdit(change);
}
