// The language server in a web worker: spoken to by messages, reading files through its client.

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { connect } from '../connect.ts';
import type { FieldHost } from '../field/fieldJob.ts';
import { fieldWorkerInThread } from '../field/fieldWorkers.ts';
import { measuredWorkerInThread } from '../measured/measuredWorkers.ts';
import { FIELD_THREAD, MEASURED_THREAD } from '../threads/kinds.ts';
import { clientFiles } from './clientFiles.ts';
import { serveAsThread, startThread } from './threads.ts';

if (!serveAsThread()) serveClient(globalThis as unknown as DedicatedWorkerGlobalScope);

function serveClient(scope: DedicatedWorkerGlobalScope): void {
  const connection = createConnection(
    ProposedFeatures.all,
    new BrowserMessageReader(scope),
    new BrowserMessageWriter(scope),
  );
  const after: FieldHost['after'] = (time_ms, act) => {
    const timer = setTimeout(act, time_ms);
    return () => clearTimeout(timer);
  };
  connect(connection, {
    files: clientFiles(connection),
    today: () => new Date().toLocaleDateString('sv'), // Swedish dates are written as ISO dates are.
    later: (act) => void setTimeout(() => void act(), 50), // Time for the answers that somebody waits for.
    field: { start: () => fieldWorkerInThread(startThread(FIELD_THREAD), after), after },
    measured: { start: () => measuredWorkerInThread(startThread(MEASURED_THREAD), after), after },
    docs: null,
  });
}
