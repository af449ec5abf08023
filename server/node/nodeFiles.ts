// Files on a disk, for the server under Node and for the command line.

import { existsSync, realpathSync, statSync } from 'node:fs';
import { readFile, realpath, stat } from 'node:fs/promises';
import { sep } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { glob } from 'tinyglobby';
import {
  type Files,
  LARGEST_FILE_bytes,
  LARGEST_MEASUREMENT_bytes,
  MOST_FILES,
  staysBelow,
} from '../files/files.ts';
import { sameUri } from '../files/uri.ts';

export const nodeFiles: Files = {
  async find(folder, globs) {
    const cwd = diskPath(folder);
    if (cwd === null || !existsSync(cwd)) return [];
    const found = await glob(globs.filter(staysBelow), {
      cwd,
      absolute: true,
      followSymbolicLinks: false,
      expandDirectories: false,
      ignore: ['**/node_modules/**', '**/.git/**'],
    });
    const inside = found.sort().slice(0, MOST_FILES);
    const fence = await realpath(cwd);
    const kept: string[] = [];
    for (const path of inside) if (await liesWithin(path, fence)) kept.push(fileUri(path));
    return kept;
  },

  async read(uri) {
    const path = diskPath(uri);
    if (path === null) return null;
    try {
      const { size } = await stat(path);
      if (LARGEST_FILE_bytes < size) return null;
      return await readFile(path, 'utf8');
    } catch {
      return null; // Gone, a folder, or not ours to read: the same to whoever asked.
    }
  },

  async bytes(uri, folder) {
    const path = diskPath(uri);
    const fence = diskPath(folder);
    if (path === null || fence === null) return { why: 'none' };
    try {
      if (!within(await realpath(path), await realpath(fence))) return { why: 'outside' };
      const found = await stat(path);
      if (!found.isFile()) return { why: 'none' };
      if (LARGEST_MEASUREMENT_bytes < found.size) return { why: 'large' };
      return { bytes: await readFile(path) };
    } catch {
      return { why: 'none' };
    }
  },

  exists(uri, folder) {
    const path = diskPath(uri);
    const fence = diskPath(folder);
    if (path === null || fence === null) return null;
    try {
      return statSync(path).isFile() && within(realpathSync(path), realpathSync(fence));
    } catch {
      return false;
    }
  },
};

export function fileUri(path: string): string {
  return sameUri(pathToFileURL(path).toString());
}

export function diskPath(uri: string): string | null {
  return uri.startsWith('file:') ? fileURLToPath(uri) : null;
}

async function liesWithin(path: string, fence: string): Promise<boolean> {
  try {
    return within(await realpath(path), fence);
  } catch {
    return false; // A link that leads nowhere.
  }
}

function within(path: string, fence: string): boolean {
  return path === fence || path.startsWith(fence.endsWith(sep) ? fence : fence + sep);
}
