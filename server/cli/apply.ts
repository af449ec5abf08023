// Writes an edited file back to where it came from: to its place on the disk, or to standard output for standard input.

import type { Source } from '../analysis.ts';
import { diskPath } from '../node/nodeFiles.ts';
import type { Io } from './io.ts';
import { Misuse } from './misuse.ts';

export async function writeBack({ uri, version }: Source, text: string, io: Io): Promise<void> {
  if (version !== null) {
    io.out(text);
    return;
  }
  const path = diskPath(uri);
  if (path === null) throw new Misuse(`${uri} cannot be written`);
  try {
    await io.writeFile(path, text, { isNew: false });
  } catch {
    throw new Misuse(`${path} cannot be written`);
  }
}
