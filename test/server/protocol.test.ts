// Through the real protocol: few tests, to prove that the wiring holds, over memory and over a process's standard input and output.

import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { PassThrough } from 'node:stream';
import { fileURLToPath } from 'node:url';
import { afterEach, describe, expect, test, vi } from 'vitest';
import type {
  CodeAction,
  CompletionItem,
  DocumentDiagnosticReport,
  Hover,
  InlayHint,
  WorkspaceDiagnosticReport,
} from 'vscode-languageserver';
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { clientFiles } from '../../server/browser/clientFiles.ts';
import { connect } from '../../server/connect.ts';
import { fieldWorkerHere } from '../../server/field/fieldWorkers.ts';
import { measuredWorkerHere } from '../../server/measured/measuredWorkers.ts';
import { fileUri } from '../../server/node/nodeFiles.ts';
import type { SetupAnswer } from '../../server/protocol/setup.ts';
import { buildCli } from '../support/buildCli.ts';
import { type Client, type ClientOptions, connectClient } from './support/client.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  FOLDER,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
  TODAY,
} from './support/facility.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
let stop: (() => Promise<void>) | null = null;

afterEach(async () => {
  await stop?.();
  stop = null;
});

function after(time_ms: number, act: () => void): () => void {
  const timer = setTimeout(act, time_ms);
  return () => clearTimeout(timer);
}

/** A server in this process, that reads files through its client as it does in a web worker. */
async function inMemory(
  options: Partial<ClientOptions> = {},
  files = new Map([
    [GEAR, GEAR_TEXT],
    [FACILITY, FACILITY_TEXT],
    [ROOM, ROOM_TEXT],
  ]),
): Promise<Client> {
  const up = new PassThrough();
  const down = new PassThrough();
  const connection = createConnection(ProposedFeatures.all, up, down);
  // The library ends its process with the connection; this process has other tests to run.
  connect(connection, {
    files: clientFiles(connection),
    today: () => TODAY,
    later: (act) => void setTimeout(act, 1),
    field: { start: () => fieldWorkerHere(after), after },
    measured: { start: () => measuredWorkerHere(after), after },
    docs: null,
  });
  const client = await connectClient(down, up, {
    folder: FOLDER,
    pullsDiagnostics: false,
    answers: {
      'groundbass/findFiles': () => [...files.keys()],
      'groundbass/readFile': ({ uri }: { uri: string }) => files.get(uri) ?? null,
    },
    ...options,
  });
  stop = async () => {
    await client.rpc.sendRequest('shutdown');
    client.rpc.dispose();
    connection.dispose();
  };
  return client;
}

const document = { textDocument: { uri: ROOM } };

function placeIn(text: string, word: string): { line: number; character: number } {
  const before = text.slice(0, text.indexOf(word));
  return {
    line: before.split('\n').length - 1,
    character: before.length - before.lastIndexOf('\n') - 1,
  };
}

describe('to a client that is sent its diagnostics', () => {
  test('they come with the opening, follow each change, and go at once', async () => {
    const client = await inMemory();
    const first = client.nextDiagnostics(ROOM);
    client.open(ROOM, ROOM_TEXT.replace('rail_2', 'rail_3'));
    expect((await first).map(({ code }) => code)).toContain('reference/gear');
    const second = client.untilDiagnostics(ROOM, 'reference/gear', false);
    client.change(ROOM, 2, ROOM_TEXT);
    await second;
  });

  test('files that nobody opened are told too', async () => {
    const other = `${FOLDER}/rooms/other.room.yaml`;
    const client = await inMemory(
      {},
      new Map([
        [GEAR, GEAR_TEXT],
        [FACILITY, FACILITY_TEXT],
        [other, ROOM_TEXT.replace('rail_2', 'rail_3')],
      ]),
    );
    expect((await client.nextDiagnostics(other)).map(({ code }) => code)).toContain(
      'reference/gear',
    );
  });

  test('a change of the gear file reaches the room that uses it, from the editor before the disk', async () => {
    const client = await inMemory();
    const first = client.nextDiagnostics(ROOM);
    client.open(ROOM, ROOM_TEXT);
    await first;
    const second = client.untilDiagnostics(ROOM, 'reference/gear', true);
    await client.rpc.sendNotification('textDocument/didOpen', {
      textDocument: {
        uri: GEAR,
        languageId: 'groundbass-gear',
        version: 1,
        text: GEAR_TEXT.replace('rail_2', 'rail_4'),
      },
    });
    await second;
  });

  test('a change on the disk does so as well', async () => {
    const files = new Map([
      [GEAR, GEAR_TEXT],
      [FACILITY, FACILITY_TEXT],
      [ROOM, ROOM_TEXT],
    ]);
    const client = await inMemory({}, files);
    const first = client.nextDiagnostics(ROOM);
    client.open(ROOM, ROOM_TEXT);
    await first;
    files.set(GEAR, GEAR_TEXT.replace('rail_2', 'rail_4'));
    const second = client.untilDiagnostics(ROOM, 'reference/gear', true);
    await client.rpc.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri: GEAR, type: 2 }],
    });
    await second;
  });
});

describe('to a client that asks for its diagnostics', () => {
  test('one file, and only what changed', async () => {
    const client = await inMemory({ pullsDiagnostics: true });
    client.open(ROOM, ROOM_TEXT.replace('rail_2', 'rail_3'));
    const ask = (previousResultId?: string): Promise<DocumentDiagnosticReport> =>
      client.rpc.sendRequest('textDocument/diagnostic', { ...document, previousResultId });
    const first = await ask();
    if (first.kind !== 'full') throw new RangeError('the first report is a full one');
    expect(first.items.map(({ code }) => code)).toContain('reference/gear');
    // The low end may come between two questions, and changes the report once.
    let last = first.resultId;
    const isUnchanged = async (): Promise<boolean> => {
      const { kind, resultId } = await ask(last);
      last = resultId;
      return kind === 'unchanged';
    };
    await vi.waitUntil(isUnchanged, { timeout: 240_000 });
    client.change(ROOM, 2, ROOM_TEXT);
    expect((await ask(last)).kind).toBe('full');
    expect(client.notified('textDocument/publishDiagnostics')).toEqual([]);
  });

  test('the whole workspace: every room, gear and facility file', async () => {
    const client = await inMemory({ pullsDiagnostics: true });
    const report: WorkspaceDiagnosticReport = await client.rpc.sendRequest('workspace/diagnostic', {
      previousResultIds: [],
    });
    expect(report.items.map(({ uri }) => uri).sort()).toEqual([FACILITY, GEAR, ROOM].sort());
    const again: WorkspaceDiagnosticReport = await client.rpc.sendRequest('workspace/diagnostic', {
      previousResultIds: report.items.map(({ uri, resultId }) => ({ uri, value: resultId })),
    });
    expect(again.items.every(({ kind }) => kind === 'unchanged')).toBe(true);
  });
});

test('hover, hints, completion and actions are answered', async () => {
  const client = await inMemory();
  client.open(ROOM, ROOM_TEXT);
  const hover: Hover = await client.rpc.sendRequest('textDocument/hover', {
    ...document,
    position: placeIn(ROOM_TEXT, 'left: { gear'),
  });
  expect(JSON.stringify(hover.contents)).toContain('time of flight');
  const hints: InlayHint[] = await client.rpc.sendRequest('textDocument/inlayHint', {
    ...document,
    range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } },
  });
  expect(hints.length).toBeGreaterThan(5);
  const items: CompletionItem[] = await client.rpc.sendRequest('textDocument/completion', {
    ...document,
    position: placeIn(ROOM_TEXT, 'rail_2'),
  });
  expect(items.map(({ label }) => label)).toContain('tern_5');
  const actions: CodeAction[] = await client.rpc.sendRequest('textDocument/codeAction', {
    ...document,
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    context: { diagnostics: [], only: ['source'] },
  });
  expect(actions.map(({ kind }) => kind)).toContain('source.dialIn.groundbass');
});

test('every feature that the server offers answers for a half-typed room and for a file that is none of ours', async () => {
  const client = await inMemory();
  const broken = ROOM_TEXT.slice(0, ROOM_TEXT.indexOf('speakers:') + 30);
  client.open(ROOM, broken);
  const position = { line: 3, character: 2 };
  const range = { start: position, end: position };
  const requests: readonly (readonly [string, object])[] = [
    ['hover', { position }],
    ['completion', { position }],
    ['definition', { position }],
    ['references', { position, context: { includeDeclaration: true } }],
    ['documentHighlight', { position }],
    ['documentSymbol', {}],
    ['documentLink', {}],
    ['foldingRange', {}],
    ['selectionRange', { positions: [position] }],
    ['semanticTokens/full', {}],
    ['codeLens', {}],
    ['codeAction', { range, context: { diagnostics: [] } }],
    ['formatting', { options: { tabSize: 2, insertSpaces: true } }],
    ['rangeFormatting', { range, options: { tabSize: 2, insertSpaces: true } }],
    ['onTypeFormatting', { position, ch: '}', options: { tabSize: 2, insertSpaces: true } }],
    ['prepareRename', { position }],
    ['rename', { position, newName: 'other' }],
    ['inlayHint', { range }],
    ['diagnostic', {}],
  ];
  for (const uri of [ROOM, `${FOLDER}/README.md`])
    for (const [name, params] of requests)
      await client.rpc.sendRequest(`textDocument/${name}`, { textDocument: { uri }, ...params });
  // A feature that fails is logged; none did.
  expect(client.notified('window/logMessage')).toEqual([]);
});

test('settings of the client switch kinds of hint', async () => {
  const client = await inMemory({
    settings: { hints: { arrival: false, angle: false, bass: false } },
  });
  client.open(ROOM, ROOM_TEXT);
  await client.nextDiagnostics(ROOM);
  const hints: InlayHint[] = await client.rpc.sendRequest('textDocument/inlayHint', {
    ...document,
    range: { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } },
  });
  const line = placeIn(ROOM_TEXT, 'left: { gear').line;
  expect(hints.some(({ position }) => position.line === line)).toBe(false);
});

describe('our own messages', () => {
  test('setup, with the version that was worked out', async () => {
    const client = await inMemory();
    client.open(ROOM, ROOM_TEXT);
    client.change(ROOM, 2, ROOM_TEXT.replace('width: 4.20 m', 'width: 4.40 m'));
    const answer: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri: ROOM });
    expect(answer.version).toBe(2);
    expect(answer.setup?.space?.volume_m3).toBeCloseTo(4.4 * 5.6 * 2.7, 6);
    expect(client.notified('groundbass/setupChanged')).toContainEqual({ uri: ROOM, version: 2 });
  });

  test('the low end comes after the rest, and is told', async () => {
    const refreshed: string[] = [];
    const refresh = (method: string) => ({ [method]: () => refreshed.push(method) });
    const client = await inMemory({
      answers: {
        'groundbass/findFiles': () => [],
        'groundbass/readFile': () => null,
        ...refresh('workspace/inlayHint/refresh'),
      },
    });
    client.open(ROOM, ROOM_TEXT);
    const setup = (): Promise<SetupAnswer> =>
      client.rpc.sendRequest('groundbass/setup', { uri: ROOM });
    expect((await setup()).setup?.field).toBeUndefined();
    const before = client.notified('groundbass/setupChanged').length;
    await vi.waitUntil(
      async () => {
        const { setup: now } = await setup();
        return now?.field && before < client.notified('groundbass/setupChanged').length;
      },
      { timeout: 240_000, interval: 50 },
    );
    expect(refreshed).toContain('workspace/inlayHint/refresh');
  });

  test('places, both ways', async () => {
    const client = await inMemory();
    client.open(ROOM, ROOM_TEXT);
    const path = ['speakers', 'left', 'at', 'x'];
    const range: { start: { line: number; character: number } } = await client.rpc.sendRequest(
      'groundbass/rangeOf',
      { uri: ROOM, path },
    );
    expect(ROOM_TEXT.split('\n')[range.start.line]?.slice(range.start.character)).toMatch(
      /^1\.40 m/,
    );
    expect(
      await client.rpc.sendRequest('groundbass/pathAt', { uri: ROOM, position: range.start }),
    ).toEqual(path);
  });

  test('edits by meaning, for this version only', async () => {
    const client = await inMemory();
    client.open(ROOM, ROOM_TEXT);
    const edits = [{ do: 'set', path: ['speakers', 'left', 'at', 'x'], value: '1.50 m' }];
    const now = await client.rpc.sendRequest('groundbass/edit', { uri: ROOM, version: 1, edits });
    expect(now).toEqual([{ range: expect.anything(), newText: '1.50 m' }]);
    expect(
      await client.rpc.sendRequest('groundbass/edit', { uri: ROOM, version: 0, edits }),
    ).toBeNull();
  });

  test('the sheet is a whole document', async () => {
    const client = await inMemory();
    client.open(ROOM, ROOM_TEXT);
    const sheet: { html: string } = await client.rpc.sendRequest('groundbass/sheet', { uri: ROOM });
    expect(sheet.html).toMatch(/^<!doctype html>[\s\S]*Test room[\s\S]*<\/html>\s*$/i);
  });
});

test('over standard input and output, on the demo facility', async () => {
  const cli = await buildCli(mkdtempSync(join(tmpdir(), 'built-cli-')));
  const server = spawn(process.execPath, [cli, 'lsp', '--stdio'], {
    cwd: ROOT,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  const ended = new Promise((resolve) => server.once('exit', resolve));
  const client = await connectClient(server.stdout, server.stdin, {
    folder: fileUri(`${ROOT}examples`),
    pullsDiagnostics: true,
  });
  expect(client.initialized.serverInfo?.name).toBe('groundbass');
  const uri = fileUri(`${ROOT}examples/rooms/heron.room.yaml`);
  const report: WorkspaceDiagnosticReport = await client.rpc.sendRequest('workspace/diagnostic', {
    previousResultIds: [],
  });
  expect(report.items.length).toBeGreaterThan(8);
  const answer: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri });
  expect(answer.setup?.room.name).toBe('Heron, mix room 2');
  // The low end comes from a thread of its own.
  client.open(uri, readFileSync(fileURLToPath(uri), 'utf8'));
  const field = await vi.waitUntil(
    async () => {
      const { setup }: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri });
      return setup?.field;
    },
    { timeout: 240_000, interval: 200 },
  );
  expect(field.seats.map(({ seat }) => seat)).toEqual(['mix', 'producer']);
  await client.stop();
  expect(await ended).toBe(0);
  rmSync(dirname(cli), { recursive: true });
});
