// The language server in a web worker: spoken to by messages, reading files through its client.

import {
  BrowserMessageReader,
  BrowserMessageWriter,
  createConnection,
  ProposedFeatures,
} from 'vscode-languageserver/browser';
import { connect } from '../connect.ts';
import { clientFiles } from './clientFiles.ts';

const scope = globalThis as unknown as DedicatedWorkerGlobalScope;
const connection = createConnection(
  ProposedFeatures.all,
  new BrowserMessageReader(scope),
  new BrowserMessageWriter(scope),
);

connect(connection, {
  files: clientFiles(connection),
  today: () => new Date().toLocaleDateString('sv'), // Swedish dates are written as ISO dates are.
  later: (act) => void setTimeout(() => void act(), 50), // Time for the answers that somebody waits for.
  docs: null,
});
