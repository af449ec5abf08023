// `npm run bench`: every benchmark of this folder with its bound or its peer; with names (`npm run bench field typing`) only those.
//
// Says what it ran on: a busy machine shows in the load beside it. A benchmark that fails is told, and the others still run.

import { readdirSync } from 'node:fs';
import { cpus, loadavg } from 'node:os';
import { sizeLines } from './sizes.ts';
import { type Table, tableLines } from './statistics.ts';

const FOLDER = new URL('./', import.meta.url);
/** What somebody waits for comes first; the others by name. */
const FIRST = 'typing.ts';

const [processor] = cpus();
console.log(
  `Node ${process.version}, ${cpus().length} × ${processor?.model ?? 'unknown'}, load ${loadavg()[0]?.toFixed(1)}\n`,
);

const wanted = process.argv.slice(2);
for (const file of files()) {
  try {
    for (const table of await tablesOf(file))
      for (const text of tableLines(table)) console.log(text);
  } catch (error) {
    console.log(`${file} failed: ${error instanceof Error ? error.stack : error}\n`);
    process.exitCode = 1;
  }
}
if (wanted.length === 0) {
  console.log('Bundles (extension + server for one host: 1500 kB is the start)');
  for (const size of sizeLines()) console.log(size);
}

function files(): readonly string[] {
  const all = readdirSync(FOLDER).filter((file) => file.endsWith('.ts') && file !== 'run.ts');
  const named = all.filter(
    (file) => wanted.length === 0 || wanted.includes(file.replace('.ts', '')),
  );
  return named.sort((one, other) => Number(other === FIRST) - Number(one === FIRST));
}

/** A file that exports no `tables` is a help to others, or prints a table of its own as it is loaded. */
async function tablesOf(file: string): Promise<readonly Table[]> {
  const loaded: { readonly tables?: () => readonly Table[] | Promise<readonly Table[]> } =
    await import(new URL(file, FOLDER).href);
  return (await loaded.tables?.()) ?? [];
}
