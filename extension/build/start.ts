// `npm start`: builds everything, checks the demo facility, shows its key figures, and says where sheet and extension lie.

import { spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CLI = `${ROOT}dist/cli/groundbass.js`;

interface Outcome {
  readonly status: number;
  readonly output: string;
}

/** Runs a program with its output shown as it comes, or kept where `quiet`. */
function run(args: readonly string[], quiet: boolean): Outcome {
  const { status, stdout, stderr } = spawnSync(process.execPath, args, {
    cwd: ROOT,
    stdio: quiet ? 'pipe' : 'inherit',
    encoding: 'utf8',
    maxBuffer: 64 << 20,
  });
  return { status: status ?? 1, output: `${stdout ?? ''}${status === 0 ? '' : (stderr ?? '')}` };
}

function heading(text: string): void {
  console.log(`\n${text}\n${'─'.repeat(text.length)}`);
}

function stopUnless(done: boolean, what: string, output: string): void {
  if (done) return;
  console.error(`${output}\n${what} failed`);
  process.exit(1);
}
