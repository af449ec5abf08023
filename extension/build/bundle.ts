// Writes all bundles, and beside them what is in each (`dist/meta`).

import { existsSync } from 'node:fs';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { build, type Metafile } from 'esbuild';
import { glob } from 'tinyglobby';
import { BUNDLES, type Bundle, buildOptions, ROOT } from './bundles.ts';
import { writeSample } from './sample.ts';

async function write(bundle: Bundle): Promise<void> {
  const { metafile } = await build({ ...buildOptions(bundle), metafile: true });
  await mkdir(`${ROOT}dist/meta`, { recursive: true });
  await writeFile(`${ROOT}dist/meta/${bundle.name}.json`, JSON.stringify(metafile));
  if (bundle.options.splitting) await removeOldChunks(bundle, metafile);
  const bytes = Object.values(metafile.outputs).reduce((sum, output) => sum + output.bytes, 0);
  console.log(`${(bytes / 1024).toFixed(0).padStart(6)} kB  ${bundle.outfile}`);
}

/** Chunks are named by what is in them: those of former builds would stay for ever. */
async function removeOldChunks({ outfile }: Bundle, { outputs }: Metafile): Promise<void> {
  const chunks = await glob([`${dirname(outfile)}/chunks/*`], { cwd: ROOT });
  await Promise.all(chunks.filter((file) => !(file in outputs)).map((file) => rm(ROOT + file)));
}

const missing = BUNDLES.filter(({ entry }) => !existsSync(`${ROOT}${entry}`));
if (missing.length > 0 && !process.argv.includes('--partial')) {
  console.error(`Nothing was built: ${missing.map(({ entry }) => entry).join(', ')} not found`);
  process.exit(1);
}
await rm(`${ROOT}dist/meta`, { recursive: true, force: true });
await Promise.all(BUNDLES.filter((bundle) => !missing.includes(bundle)).map(write));
await writeSample(ROOT);
