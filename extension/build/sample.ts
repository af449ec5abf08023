// Puts the demo facility into one file of the extension, from which its command makes a copy for a user to play with.
//
// One file, because a web extension has no folder to list: it can only fetch what it knows the name of.

import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { glob } from 'tinyglobby';

/** Text files only: what a new user should read first, small enough to ship. */
const SAMPLE_FILES = ['facility.yaml', '**/*.room.yaml', '**/*.gear.yaml', '**/*.txt'];

/** @param root the repository, with a slash at its end */
export async function writeSample(root: string): Promise<void> {
  const names = (await glob(SAMPLE_FILES, { cwd: `${root}examples` })).sort();
  const texts = await Promise.all(
    names.map(async (name) => [name, await readFile(`${root}examples/${name}`, 'utf8')] as const),
  );
  await mkdir(`${root}dist`, { recursive: true });
  await writeFile(`${root}dist/sample.json`, JSON.stringify(Object.fromEntries(texts)));
}
