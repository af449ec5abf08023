// Packs the extension: lays out what `.vscodeignore` allows, with the manifest that an editor needs, and makes the `.vsix` of it.
//
// The manifest is the repository's without what only the repository needs. `type` must go: web hosts since VS Code 1.94 take
// a `type: module` for an ES module, which they cannot load, and those before append `.js` to any other ending.

import { cp, mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createVSIX } from '@vscode/vsce';
import { glob } from 'tinyglobby';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const STAGE = `${ROOT}dist/vsix/`;
const PACKAGE = `${ROOT}dist/groundbass.vsix`;

async function layOut(): Promise<void> {
  const ignore = await readFile(`${ROOT}.vscodeignore`, 'utf8');
  const allowed = ignore
    .split('\n')
    .flatMap((line) => (line.startsWith('!') ? [line.slice(1)] : []));
  await rm(STAGE, { recursive: true, force: true });
  for (const file of await glob(allowed, { cwd: ROOT, expandDirectories: false })) {
    await mkdir(dirname(STAGE + file), { recursive: true });
    await cp(ROOT + file, STAGE + file);
  }
  await cp(`${ROOT}.vscodeignore`, `${STAGE}.vscodeignore`);
  await writeFile(`${STAGE}package.json`, JSON.stringify(await editorManifest(), null, 2));
}

async function editorManifest(): Promise<object> {
  const manifest = JSON.parse(await readFile(`${ROOT}package.json`, 'utf8'));
  const { type, private: _, bin, scripts, dependencies, devDependencies, ...rest } = manifest;
  return { ...rest, engines: { vscode: manifest.engines.vscode } };
}

await layOut();
await createVSIX({
  cwd: STAGE,
  packagePath: PACKAGE,
  dependencies: false,
  allowMissingRepository: true,
  rewriteRelativeLinks: false,
});
