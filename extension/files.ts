// Finds and reads files for a server that has no file system of its own: in a web worker, or for a virtual workspace.

import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  FIND_FILES_REQUEST,
  type FindFilesAnswer,
  type FindFilesParams,
  READ_BYTES_REQUEST,
  READ_FILE_REQUEST,
  type ReadBytesAnswer,
  type ReadBytesParams,
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
  client.onRequest(READ_BYTES_REQUEST, (params: ReadBytesParams) => readBytes(params));
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

async function readBytes({ uri, most }: ReadBytesParams): Promise<ReadBytesAnswer> {
  const file = vscode.Uri.parse(uri, true);
  if (!isWithinReach(file)) return nothing('outside');
  try {
    const { size, type } = await vscode.workspace.fs.stat(file);
    if ((type & vscode.FileType.File) === 0) return nothing('none');
    if (most < size) return nothing('large');
    return { base64: base64Of(await vscode.workspace.fs.readFile(file)), why: null };
  } catch {
    return nothing('none');
  }
}

function nothing(why: ReadBytesAnswer['why']): ReadBytesAnswer {
  return { base64: null, why };
}

/** In pieces: a call takes no more than so many arguments. */
function base64Of(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 1 << 13)
    text += String.fromCharCode(...bytes.subarray(at, at + (1 << 13)));
  return btoa(text);
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
