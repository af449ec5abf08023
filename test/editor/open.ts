// `npm run open`: the demo facility in a real VS Code in the browser, with the extension installed; ends with Ctrl+C.

import { spawn, spawnSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, rmSync } from 'node:fs';
import { chromiumPath, ROOT, VSIX } from './support/paths.ts';
import { startWorkbench } from './support/workbench.ts';

/** A copy, so that whoever plays with it changes no file of the repository. */
const PLAYGROUND = `${ROOT}out/facility`;

function prepare(command: string, args: readonly string[]): void {
  const { status } = spawnSync(command, args, {
    cwd: ROOT,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  if (status !== 0) process.exit(status ?? 1);
}

prepare('bash', ['test/editor/host/install.sh']);
prepare('npm', ['run', '--silent', 'build']);
prepare('npm', ['run', '--silent', 'package']);
rmSync(PLAYGROUND, { recursive: true, force: true });
mkdirSync(PLAYGROUND, { recursive: true });
cpSync(`${ROOT}examples`, PLAYGROUND, { recursive: true });

const wanted = process.env.PORT;
const host = await startWorkbench({
  folder: PLAYGROUND,
  vsix: VSIX,
  ...(wanted && { port: Number(wanted) }),
});
const url = host.url(`${PLAYGROUND}/rooms/heron.room.yaml`);
console.log(
  `\nThe facility is open at\n\n  ${url}\n\nPress Ctrl+K V there for the setup sheet. Ctrl+C here ends it.`,
);
if (process.env.DISPLAY || process.env.WAYLAND_DISPLAY) showBrowser(url);
for (const signal of ['SIGINT', 'SIGTERM'] as const) {
  process.once(signal, async () => {
    await host.stop();
    process.exit(0);
  });
}

function showBrowser(address: string): void {
  const path = chromiumPath();
  if (!existsSync(path)) return;
  const rootNeeds = process.getuid?.() === 0 ? ['--no-sandbox'] : [];
  spawn(path, [...rootNeeds, `--app=${address}`], { stdio: 'ignore', detached: true }).unref();
}
