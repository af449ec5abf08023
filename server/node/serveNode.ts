// Serves an editor from a disk: what the server's own process and the command line's `lsp` share.

import { existsSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { Connection } from 'vscode-languageserver';
import { connect } from '../connect.ts';
import { fieldWorkerInThread } from '../field/fieldWorkers.ts';
import { measuredWorkerInThread } from '../measured/measuredWorkers.ts';
import { FIELD_THREAD, MEASURED_THREAD } from '../threads/kinds.ts';
import { today } from './clock.ts';
import { nodeFiles } from './nodeFiles.ts';
import { startThread } from './threads.ts';

export function serveNode(connection: Connection): void {
  connect(connection, {
    files: nodeFiles,
    today,
    later,
    field: { start: () => fieldWorkerInThread(startThread(FIELD_THREAD), after), after },
    measured: { start: () => measuredWorkerInThread(startThread(MEASURED_THREAD), after), after },
    docs: docsFolder(),
  });
}

/** Time for the answers that somebody waits for. */
const PAUSE_ms = 50;

function later(act: () => Promise<void>): void {
  setTimeout(() => void act(), PAUSE_ms);
}

function after(time_ms: number, act: () => void): () => void {
  const timer = setTimeout(act, time_ms);
  return () => clearTimeout(timer);
}

/** The pages of the findings beside the bundle, two folders up from where it runs; null where they were not installed. */
function docsFolder(): string | null {
  const script = process.argv[1];
  if (script === undefined) return null;
  const folder = resolve(dirname(script), '../../docs/findings');
  return existsSync(folder) ? pathToFileURL(folder).toString() : null;
}
