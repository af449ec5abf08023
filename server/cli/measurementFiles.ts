// The bytes of measurement files for verbs, of bounded size.

import { readFile, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import { MOST_BYTES } from '../measure/readWav.ts';
import type { Io } from './io.ts';
import { Misuse } from './misuse.ts';

/** @throws Misuse for a path that is no file, cannot be read, or is too large */
export async function readBytes(path: string, { cwd }: Io): Promise<Uint8Array> {
  const absolute = resolve(cwd, path);
  let size = 0;
  try {
    const found = await stat(absolute);
    if (!found.isFile()) throw new Misuse(`${path} is no file`);
    size = found.size;
  } catch (error) {
    throw error instanceof Misuse ? error : new Misuse(`${path} does not exist`);
  }
  if (MOST_BYTES < size) throw new Misuse(`${path} is larger than ${MOST_BYTES / 1e6} MB`);
  try {
    return await readFile(absolute);
  } catch {
    throw new Misuse(`${path} cannot be read`);
  }
}
