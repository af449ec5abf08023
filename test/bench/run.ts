// `npm run bench`: every benchmark of this folder with its bound or its peer; with names (`npm run bench field typing`) only those.
//
// Says what it ran on: a busy machine shows in the load beside it. Each file has a process of its own, so that none warms up or
// slows down another, and one that fails is told while the others still run.

import { spawnSync } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { fileURLToPath } from 'node:url';
import { type Table, tableLines } from './statistics.ts';

const FOLDER = new URL('./', import.meta.url);
/** What somebody waits for comes first; the others by name. */
const FIRST = 'typing.ts';
/** Before the name of the one file that a process of its own runs. */
const ONLY = '--only';

const [first, ...others] = process.argv.slice(2);
if (first === ONLY) await print(others[0] ?? '');
else printAll(first === undefined ? [] : [first, ...others]);

function printAll(wanted: readonly string[]): void {
  const [processor] = cpus();
  const load = loadavg()[0]?.toFixed(1);
  console.log(
    `Node ${process.version}, ${cpus().length} × ${processor?.model ?? 'unknown'}, load ${load}\n`,
  );
  for (const file of files(wanted)) {
    const command = [...process.execArgv, fileURLToPath(import.meta.url), ONLY, file];
    const { status } = spawnSync(process.execPath, command, { stdio: 'inherit' });
    if (status === 0) continue;
    console.log(`${file} failed\n`);
    process.exitCode = 1;
  }
}

function files(wanted: readonly string[]): readonly string[] {
  return readdirSync(FOLDER)
    .filter((file) => file.endsWith('.ts') && file !== 'run.ts')
    .filter((file) => wanted.length === 0 || wanted.includes(file.replace('.ts', '')))
    .sort((one, other) => Number(other === FIRST) - Number(one === FIRST));
}

/** A file that exports no `tables` is a help to others, or prints a table of its own as it is loaded. */
async function print(file: string): Promise<void> {
  const loaded: { readonly tables?: () => readonly Table[] | Promise<readonly Table[]> } =
    await import(new URL(file, FOLDER).href);
  for (const table of (await loaded.tables?.()) ?? [])
    for (const text of tableLines(table)) console.log(text);
}
