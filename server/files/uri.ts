// URIs as the server compares them: parents, joins and names, by vscode-uri, so that a disk's path never appears here.

import { URI, Utils } from 'vscode-uri';

/** One spelling for one file: clients escape colons and case of drives in their own ways. */
export function sameUri(uri: string): string {
  return URI.parse(uri).toString();
}

export function folderOf(uri: string): string {
  return Utils.dirname(URI.parse(uri)).toString();
}

export function baseName(uri: string): string {
  return Utils.basename(URI.parse(uri));
}

export function join(folder: string, relativePath: string): string {
  return Utils.joinPath(URI.parse(folder), relativePath).toString();
}

/** All folders from this one upwards, this one first. */
export function upwards(folder: string): readonly string[] {
  const folders: string[] = [];
  let at = folder;
  while (!folders.includes(at)) {
    folders.push(at);
    at = folderOf(at);
  }
  return folders;
}

export function isBelow(uri: string, folder: string): boolean {
  return uri === folder || uri.startsWith(folder.endsWith('/') ? folder : `${folder}/`);
}

/** The path from a folder to a file below it, unescaped; null where it is not below. */
export function relativeTo(folder: string, uri: string): string | null {
  if (!isBelow(uri, folder)) return null;
  return URI.parse(uri).path.slice(URI.parse(folder).path.replace(/\/$/, '').length + 1);
}
