// The low end in a thread of its own, as it is shipped: the bundle of the command line serves an editor while a sloped room is worked out.

import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, test, vi } from 'vitest';
import { ProgressType } from 'vscode-jsonrpc';
import type { InlayHint } from 'vscode-languageserver';
import { fileUri } from '../../server/node/nodeFiles.ts';
import type { SetupAnswer } from '../../server/protocol/setup.ts';
import { bundledServer } from './support/bundledServer.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'thread-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Later than typing has to rest before the field is begun. */
const FIELD_BEGINS_MS = 300;

test('the editor is answered while finite elements are at work; then their figures are there', async () => {
  const { client, ended } = await bundledServer(folder, fileUri(`${ROOT}examples`));
  const uri = fileUri(`${ROOT}examples/rooms/wren.room.yaml`);
  client.open(uri, readFileSync(fileURLToPath(uri), 'utf8'));
  let field: unknown;
  let answers = 0;
  const begun_ms = performance.now();
  await vi.waitUntil(
    async () => {
      const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
      const hints: InlayHint[] = await client.rpc.sendRequest('textDocument/inlayHint', {
        textDocument: { uri },
        range,
      });
      if (0 < hints.length && FIELD_BEGINS_MS < performance.now() - begun_ms) answers += 1;
      const answer: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri });
      field = answer.setup?.field;
      return field;
    },
    { timeout: 240_000, interval: 20 },
  );
  expect(field).toMatchObject({ method: 'sloped ceiling' });
  // In the server's own thread, one answer would have waited for all of it, and no other would have come before the field.
  expect(answers).toBeGreaterThan(2);
  await client.stop();
  expect(await ended).toBe(0);
});

test('a long job is told with its progress, and stopped there', async () => {
  const tokens: (string | number)[] = [];
  const { client, ended } = await bundledServer(folder, fileUri(`${ROOT}examples`), {
    showsProgress: true,
    answers: {
      'window/workDoneProgress/create': ({ token }: { readonly token: string | number }) => {
        tokens.push(token);
        return null;
      },
    },
  });
  const uri = fileUri(`${ROOT}examples/rooms/wren.room.yaml`);
  client.open(uri, readFileSync(fileURLToPath(uri), 'utf8'));
  await client.rpc.sendRequest('groundbass/setup', { uri });
  await vi.waitUntil(() => 0 < tokens.length, { timeout: 240_000, interval: 5 });
  const [token = ''] = tokens;
  const told: { readonly kind: string; readonly cancellable?: boolean }[] = [];
  client.rpc.onProgress(new ProgressType<(typeof told)[number]>(), token, (one) => {
    told.push(one);
  });
  await client.rpc.sendNotification('window/workDoneProgress/cancel', { token });
  await vi.waitUntil(() => told.some(({ kind }) => kind === 'end'), {
    timeout: 240_000,
    interval: 5,
  });
  const answer: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri });
  expect(answer.setup).toBeTruthy();
  expect(answer.setup?.field).toBeUndefined(); // stopped, not worked out
  await client.stop();
  expect(await ended).toBe(0);
});
