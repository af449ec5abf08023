// Takes in a real browser: the web bundle's server asks its client for the bytes, a worker below it reads them, and the figures come back.

import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, expect, test, vi } from 'vitest';
import type { InlayHint } from 'vscode-languageserver';
import {
  FIND_FILES_REQUEST,
  READ_BYTES_REQUEST,
  READ_FILE_REQUEST,
  type ReadBytesAnswer,
  type ReadBytesParams,
  type ReadFileParams,
} from '../../server/protocol/files.ts';
import type { SetupAnswer } from '../../server/protocol/setup.ts';
import { FIELD_THREAD, MEASURED_THREAD } from '../../server/threads/kinds.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  FOLDER,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
} from '../server/support/facility.ts';
import { type WebServer, webServer } from '../server/support/webServer.ts';
import { startChromium } from '../support/chromium.ts';
import { expectNear } from '../support/expectNear.ts';
import { roomImpulse, wavOf } from './takeBytes.ts';

const ARRIVES_S = 0.0075;
const SESSIONS = `sessions:
  autumn:
    date: 2026-11-03
    takes:
      left: { file: takes/left.wav, drive: L, sounding: [left], seat: mix, timing: loopback }
      text: { file: takes/sub.txt, drive: L, sounding: [sub], seat: mix }
      gone: { file: takes/gone.wav, drive: R, sounding: [right], seat: mix }
`;
const TEXT = ROOM_TEXT + SESSIONS;
const TEXTS = new Map([
  [GEAR, GEAR_TEXT],
  [FACILITY, FACILITY_TEXT],
  [ROOM, TEXT],
]);
const BYTES = new Map([
  [`${FOLDER}/rooms/takes/left.wav`, wavOf([roomImpulse(ARRIVES_S, 0.5)])],
  [
    `${FOLDER}/rooms/takes/sub.txt`,
    new TextEncoder().encode('20 70\n31.5 80\n63 82\n125 70\n250 40\n'),
  ],
]);

let browser: Browser;
let server: WebServer;

beforeAll(async () => {
  browser = await startChromium();
  server = await webServer(browser, {
    folder: FOLDER,
    pullsDiagnostics: true,
    answers: {
      [FIND_FILES_REQUEST]: () => [...TEXTS.keys()],
      [READ_FILE_REQUEST]: ({ uri }: ReadFileParams) => TEXTS.get(uri) ?? null,
      [READ_BYTES_REQUEST]: ({ uri }: ReadBytesParams): ReadBytesAnswer => {
        const bytes = BYTES.get(uri);
        return bytes
          ? { base64: Buffer.from(bytes).toString('base64'), why: null }
          : { base64: null, why: 'none' };
      },
    },
  });
});

afterAll(async () => {
  await server?.close();
  await browser?.close();
});

test('what was measured arrives, read by a worker below the server’s own', async () => {
  const { client, told } = server;
  client.open(ROOM, TEXT);
  let answer: SetupAnswer | null = null;
  await vi.waitUntil(
    async () => {
      answer = await client.rpc.sendRequest<SetupAnswer>('groundbass/setup', { uri: ROOM });
      return answer.setup?.verification;
    },
    { timeout: 240_000, interval: 50 },
  );
  const takes = (answer as SetupAnswer | null)?.setup?.measured?.sessions[0]?.takes ?? [];
  const [left, text, gone] = takes;
  expectNear([left?.arrival_s ?? 0], [ARRIVES_S], 2e-5, 's');
  expect(left).toMatchObject({ kind: 'impulse', polarity: 'upright', faults: [] });
  expect(text?.response?.level_db).toEqual([70, 80, 82, 70, 40]);
  expect(gone).toMatchObject({ kind: null, response: null });
  expect(told).toContain(`start ${MEASURED_THREAD}`);
  expect(told).toContain(`answer ${MEASURED_THREAD}`);
  expect(told).toContain(`answer ${FIELD_THREAD}`);
});

test('the hint beside the take tells arrival and level', async () => {
  const line = TEXT.split('\n').findIndex((one) => one.includes('takes/left.wav'));
  const range = { start: { line, character: 0 }, end: { line: line + 1, character: 0 } };
  const hints = await server.client.rpc.sendRequest<readonly InlayHint[]>(
    'textDocument/inlayHint',
    { textDocument: { uri: ROOM }, range },
  );
  const told = hints
    .map(({ label }) =>
      typeof label === 'string' ? label : label.map(({ value }) => value).join(''),
    )
    .join(' ');
  expect(told).toMatch(/7\.50 ms/);
});
