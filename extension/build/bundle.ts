// Bundles everything that runs: the extension and its server for both hosts, the preview's page, and the command line.
//
// Editors load CommonJS: `.cjs` says so beside a `type: module`; browsers take whole scripts.

import { existsSync } from 'node:fs';
import { mkdir, rm, stat, writeFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { type BuildOptions, build } from 'esbuild';
import { writeSample } from './sample.ts';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));

interface Bundle {
  readonly name: string;
  readonly entry: string;
  readonly outfile: string;
  readonly options: BuildOptions;
}

/** What travels in the extension; names stay, so that a user's stack trace says something. */
const SMALL: BuildOptions = { minifySyntax: true, minifyWhitespace: true };
const NODE: BuildOptions = { ...SMALL, platform: 'node', target: 'node20', format: 'cjs' };
const BROWSER: BuildOptions = { ...SMALL, platform: 'browser', target: 'es2022' };

const BUNDLES: readonly Bundle[] = [
  {
    name: 'extension-node',
    entry: 'extension/node.ts',
    outfile: 'dist/extension/node.cjs',
    options: { ...NODE, external: ['vscode'] },
  },
  {
    name: 'extension-browser',
    entry: 'extension/browser.ts',
    outfile: 'dist/extension/browser.js',
    options: { ...BROWSER, format: 'cjs', external: ['vscode'] },
  },
  {
    name: 'server-node',
    entry: 'server/node/server.ts',
    outfile: 'dist/server/node.cjs',
    options: {
      ...NODE,
      // One of its libraries asks where it lies, in the way of ES modules.
      define: { 'import.meta.url': 'bundleUrl' },
      banner: { js: "const bundleUrl = require('node:url').pathToFileURL(__filename).href;" },
    },
  },
  {
    name: 'server-browser',
    entry: 'server/browser/server.ts',
    outfile: 'dist/server/browser.js',
    options: { ...BROWSER, format: 'iife' },
  },
  {
    name: 'preview-page',
    entry: 'extension/preview/page/main.tsx',
    outfile: 'dist/preview/page.js',
    options: { ...BROWSER, format: 'iife' },
  },
  {
    name: 'cli',
    entry: 'server/cli/groundbass.ts',
    outfile: 'dist/cli/groundbass.js',
    options: {
      platform: 'node',
      target: 'node20',
      format: 'esm',
      // Some of its libraries are CommonJS and ask for Node's own modules by `require`.
      banner: {
        js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
      },
    },
  },
];

/** Writes one bundle, and beside all of them what is in it (`dist/meta`). */
async function write({ name, entry, outfile, options }: Bundle): Promise<void> {
  const { metafile } = await build({
    ...options,
    absWorkingDir: ROOT,
    entryPoints: [entry],
    outfile,
    bundle: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'warning',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    loader: { '.css': 'css' },
  });
  await mkdir(`${ROOT}dist/meta`, { recursive: true });
  await writeFile(`${ROOT}dist/meta/${name}.json`, JSON.stringify(metafile));
  const { size } = await stat(`${ROOT}${outfile}`);
  console.log(`${(size / 1024).toFixed(0).padStart(6)} kB  ${outfile}`);
}

const missing = BUNDLES.filter(({ entry }) => !existsSync(`${ROOT}${entry}`));
if (missing.length > 0 && !process.argv.includes('--partial')) {
  console.error(`Nothing was built: ${missing.map(({ entry }) => entry).join(', ')} not found`);
  process.exit(1);
}
await rm(`${ROOT}dist/meta`, { recursive: true, force: true });
await Promise.all(BUNDLES.filter((bundle) => !missing.includes(bundle)).map(write));
await writeSample(ROOT);
