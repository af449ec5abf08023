// The bundled server as an editor meets it: a process of its own, spoken to over standard input and output.

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { InlayHint } from 'vscode-languageserver';
import { fileUri } from '../../server/node/nodeFiles.ts';
import { connectClient } from '../server/support/client.ts';
import { afterKey, LONG_ROOM_FILE, longRoom } from './longRoom.ts';
import { processorTime_ms } from './processorTime.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
export const SERVER: string = `${ROOT}dist/server/node.mjs`;

export interface StdioTimes {
  /** From starting the process to the answer to `initialize`, and on to the first diagnostics of an open room. */
  readonly initialize_ms: number;
  readonly firstDiagnostics_ms: number;
  /** How long the server's process was busy until then; NaN where the system does not tell. */
  readonly initializeCpu_ms: number;
  readonly firstDiagnosticsCpu_ms: number;
  /** From sending a changed text to diagnostics and hints received. */
  readonly keystroke_ms: readonly number[];
  readonly keystrokeCpu_ms: readonly number[];
}

/** null where the bundle was not built. */
export async function stdioTimes(keyCount: number): Promise<StdioTimes | null> {
  if (!existsSync(SERVER)) return null;
  const uri = fileUri(LONG_ROOM_FILE.pathname);
  const text = longRoom();
  const start_ms = performance.now();
  const server = spawn(process.execPath, [SERVER, '--stdio'], {
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const client = await connectClient(server.stdout, server.stdin, {
    folder: fileUri(`${ROOT}examples`),
    pullsDiagnostics: true,
  });
  const initialize_ms = performance.now() - start_ms;
  const initializeCpu_ms = processorTime_ms(server.pid);
  client.open(uri, text);
  const document = { textDocument: { uri } };
  await client.rpc.sendRequest('textDocument/diagnostic', document);
  const firstDiagnostics_ms = performance.now() - start_ms;
  const firstDiagnosticsCpu_ms = processorTime_ms(server.pid);
  const range = { start: { line: 0, character: 0 }, end: { line: 300, character: 0 } };
  const keystroke_ms: number[] = [];
  const keystrokeCpu_ms: number[] = [];
  for (let index = 0; index < 2 * keyCount; index += 1) {
    const before_ms = processorTime_ms(server.pid);
    const sent_ms = performance.now();
    client.change(uri, index + 2, afterKey(text, index));
    const diagnosed = client.rpc.sendRequest('textDocument/diagnostic', document);
    const hinted = client.rpc.sendRequest<InlayHint[]>('textDocument/inlayHint', {
      ...document,
      range,
    });
    await diagnosed;
    if ((await hinted).length === 0) throw new RangeError('no hints');
    if (index < keyCount) continue;
    keystroke_ms.push(performance.now() - sent_ms);
    keystrokeCpu_ms.push(processorTime_ms(server.pid) - before_ms);
  }
  await client.stop();
  return {
    initialize_ms,
    firstDiagnostics_ms,
    initializeCpu_ms,
    firstDiagnosticsCpu_ms,
    keystroke_ms,
    keystrokeCpu_ms,
  };
}
