// The command line as it is shipped, for tests that start it as a process: bundled once, which takes less than a start from the sources.

import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import { BUNDLES, buildOptions } from '../../extension/build/bundles.ts';

/**
 * @param folder where it is written; the caller takes it away again
 * @returns the path of the file that Node starts
 */
export async function buildCli(folder: string): Promise<string> {
  const bundle = BUNDLES.find(({ name }) => name === 'cli');
  if (bundle === undefined) throw new RangeError('no bundle of the command line');
  await build({ ...buildOptions(bundle), outdir: folder });
  writeFileSync(join(folder, 'package.json'), '{ "type": "module" }\n');
  return join(folder, 'groundbass.js');
}
