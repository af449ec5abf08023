// The language server as it is shipped: the bundle of the command line in a process of its own.

import { spawn } from 'node:child_process';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { type Client, type ClientOptions, connectClient } from './client.ts';

const ROOT = fileURLToPath(new URL('../../../', import.meta.url));

export interface BundledServer {
  readonly client: Client;
  /** The exit code, once it has said goodbye. */
  readonly ended: Promise<unknown>;
}

/**
 * @param folder where the bundle is put
 * @param workspace URI of the folder that is open
 * @param more what its client can do besides
 */
export async function bundledServer(
  folder: string,
  workspace: string,
  more: Pick<ClientOptions, 'showsProgress' | 'answers'> = {},
): Promise<BundledServer> {
  const server = spawn(process.execPath, [await bundle(folder), 'lsp'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  const client = await connectClient(server.stdout, server.stdin, {
    folder: workspace,
    pullsDiagnostics: true,
    ...more,
  });
  return { client, ended };
}

/** As the build makes it. */
async function bundle(folder: string): Promise<string> {
  const outfile = join(folder, 'groundbass.mjs');
  await build({
    entryPoints: [`${ROOT}server/cli/groundbass.ts`],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'error',
    banner: {
      js: "import { createRequire as requireFrom } from 'node:module';\nconst require = requireFrom(import.meta.url);",
    },
  });
  return outfile;
}
