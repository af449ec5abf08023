// Puts the demo facility into one file of the extension, from which its command makes a copy for a user to play with.
//
// One file, because a web extension has no folder to list: it can only fetch what it knows the name of.

import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { glob } from 'tinyglobby';

/** All that the rooms name: a sample with takes that cannot be read would teach nothing. */
const TEXTS = ['facility.yaml', '**/*.room.yaml', '**/*.gear.yaml', '**/*.txt'];
const SOUNDS = ['**/*.wav'];

/** @param root the repository, with a slash at its end */
export async function writeSample(root: string): Promise<void> {
  const read = async (globs: readonly string[], encoding: 'utf8' | 'base64') => {
    const names = (await glob([...globs], { cwd: `${root}examples` })).sort();
    const all = names.map(async (name) => [
      name,
      await readFile(`${root}examples/${name}`, encoding),
    ]);
    return Object.fromEntries(await Promise.all(all));
  };
  const sample = { texts: await read(TEXTS, 'utf8'), sounds: await read(SOUNDS, 'base64') };
  await mkdir(`${root}dist`, { recursive: true });
  await writeFile(`${root}dist/sample.json`, JSON.stringify(sample));
}
