// Finds and reads files for a server that has no file system of its own: in a web worker, or for a virtual workspace.

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FIND_FILES_REQUEST,
  type FindFilesAnswer,
  type FindFilesParams,
  READ_FILE_REQUEST,
  type ReadFileAnswer,
  type ReadFileParams,
} from '../server/protocol/files.ts';

/** A facility has hundreds of files, not tens of thousands. */
const MOST_FILES = 10_000;
/** Far above any room, gear or response file; a larger one is not worth the memory of a browser. */
const LARGEST_FILE_BYTES = 16 << 20;

export function answerFileRequests(client: BaseLanguageClient): void {
  client.onRequest(FIND_FILES_REQUEST, ({ globs }: FindFilesParams) => findFiles(globs));
  client.onRequest(READ_FILE_REQUEST, ({ uri }: ReadFileParams) => readFile(uri));
}

async function findFiles(globs: readonly string[]): Promise<FindFilesAnswer> {
  const found = await Promise.all(
    globs.map((glob) => vscode.workspace.findFiles(glob, '**/node_modules/**', MOST_FILES)),
  );
  return [...new Set(found.flat().map(String))];
}

/** Only what lies in the workspace or beside an open file: the server asks for what a text names, and a text may name anything. */
async function readFile(uri: string): Promise<ReadFileAnswer> {
  const file = vscode.Uri.parse(uri, true);
  if (!isWithinReach(file)) return null;
  try {
    const { size } = await vscode.workspace.fs.stat(file);
    if (LARGEST_FILE_BYTES < size) return null;
    return new TextDecoder().decode(await vscode.workspace.fs.readFile(file));
  } catch {
    return null; // It does not exist, or may not be read: the answer is the same.
  }
}

function isWithinReach(file: vscode.Uri): boolean {
  if (vscode.workspace.getWorkspaceFolder(file)) return true;
  return vscode.workspace.textDocuments.some(({ uri }) => {
    const folder = uri.path.slice(0, uri.path.lastIndexOf('/') + 1);
    return (
      uri.scheme === file.scheme && uri.authority === file.authority && file.path.startsWith(folder)
    );
  });
}
