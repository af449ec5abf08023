// What is bundled and how: the extension and its server for both hosts, the preview's page, and the command line.
//
// Under Node the server and the command line are cut into chunks, so that a start reads only what it needs: what is imported
// by `import()` in the sources waits in a file of its own. A web worker and the page are one script each. Editors load the
// extension as CommonJS: `.cjs` says so beside a `type: module`.

import { fileURLToPath } from 'node:url';
import type { BuildOptions } from 'esbuild';
import { oneDoor } from './oneDoor.ts';

export const ROOT: string = fileURLToPath(new URL('../..', import.meta.url));

export interface Bundle {
  readonly name: string;
  readonly entry: string;
  /** The file that is started; chunks lie beside it. */
  readonly outfile: string;
  readonly options: BuildOptions;
}

/** What travels in the extension; names stay, so that a user's stack trace says something. */
const SMALL: BuildOptions = { minifySyntax: true, minifyWhitespace: true };
/** As ES modules, of which only what is used is taken: what a host would resolve to is whole, or wraps what is. */
const MODULES = {
  yaml: `${ROOT}node_modules/yaml/browser/index.js`,
  'ml-matrix': `${ROOT}node_modules/ml-matrix/src/index.js`,
};
const NODE: BuildOptions = { platform: 'node', target: 'node20', alias: MODULES };
const CHUNKS: BuildOptions = {
  ...NODE,
  format: 'esm',
  splitting: true,
  // Some of the libraries are CommonJS and ask for Node's own modules by `require`.
  banner: {
    js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
  },
};
const BROWSER: BuildOptions = {
  ...SMALL,
  platform: 'browser',
  target: 'es2022',
  // The ES module of the last has no default export, by which Node knows it.
  alias: { ...MODULES, wavefile: `${ROOT}node_modules/wavefile/dist/wavefile.js` },
};

export const BUNDLES: readonly Bundle[] = [
  {
    name: 'extension-node',
    entry: 'extension/node.ts',
    outfile: 'dist/extension/node.cjs',
    options: { ...NODE, ...SMALL, format: 'cjs', external: ['vscode'] },
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
    outfile: 'dist/server/node.mjs',
    options: { ...CHUNKS, ...SMALL },
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
    options: CHUNKS,
  },
];

/** The options that esbuild takes. */
export function buildOptions({ entry, outfile, options }: Bundle): BuildOptions {
  const folder = outfile.slice(0, outfile.lastIndexOf('/'));
  const ending = outfile.slice(outfile.lastIndexOf('.'));
  const name = outfile.slice(folder.length + 1, -ending.length);
  const where: BuildOptions = options.splitting
    ? {
        entryPoints: [{ in: entry, out: name }],
        outdir: folder,
        outExtension: { '.js': ending },
        chunkNames: 'chunks/[name]-[hash]',
      }
    : { entryPoints: [entry], outfile };
  return {
    ...options,
    ...where,
    absWorkingDir: ROOT,
    bundle: true,
    metafile: true,
    legalComments: 'none',
    logLevel: 'warning',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    loader: { '.css': 'css' },
    plugins: [oneDoor('vscode-languageserver')],
  };
}
