// The search for a subwoofer's place through the real protocol: lens, command, progress, offer, code actions, stopping.

import { afterEach, describe, expect, test } from 'vitest';
import { CancellationTokenSource, ProgressType } from 'vscode-jsonrpc/node';
import type { CodeAction, CodeLens } from 'vscode-languageserver';
import { FIND_PLACEMENTS } from '../../server/protocol/commands.ts';
import { choosing } from './support/choosing.ts';
import type { Client } from './support/client.ts';
import { ROOM, ROOM_TEXT } from './support/facility.ts';

const { inMemory, stopped } = choosing();
afterEach(stopped);

const LINE = ROOM_TEXT.slice(0, ROOM_TEXT.indexOf('  sub: { item')).split('\n').length - 1;
const onSub = { start: { line: LINE, character: 4 }, end: { line: LINE, character: 4 } };
const command = { command: FIND_PLACEMENTS, arguments: [{ uri: ROOM, subwoofer: 'sub' }] };

const actions = async ({ rpc }: Client): Promise<readonly CodeAction[]> =>
  rpc.sendRequest('textDocument/codeAction', {
    textDocument: { uri: ROOM },
    range: onSub,
    context: { diagnostics: [] },
  });

interface Figures {
  readonly candidates: readonly {
    readonly subwoofers: Readonly<
      Record<string, { readonly x_m: number; readonly y_m: number; readonly delay_ms: number }>
    >;
  }[];
}

/** As it would stand in the file: `x: 2.70 m`. */
const metres = (value: number) => `${value.toFixed(2)} m`;

describe('a subwoofer of an open room', () => {
  test('has a lens and an action that search, and the server says that it can', async () => {
    const client = await inMemory(null);
    expect(client.initialized.capabilities.executeCommandProvider?.commands).toContain(
      FIND_PLACEMENTS,
    );
    const lenses: readonly CodeLens[] = await client.rpc.sendRequest('textDocument/codeLens', {
      textDocument: { uri: ROOM },
    });
    const lens = lenses.find((one) => one.command?.command === FIND_PLACEMENTS);
    expect(lens?.range.start.line).toBe(LINE);
    expect(lens?.command?.arguments).toEqual(command.arguments);
    expect((await actions(client)).map(({ title }) => title)).toContain('Find places for `sub`');
  });

  test('is searched with progress; the place that a person chooses is written', async () => {
    const client = await inMemory(1);
    const kinds: string[] = [];
    client.rpc.onProgress(new ProgressType<{ readonly kind: string }>(), 'search', ({ kind }) => {
      kinds.push(kind);
    });
    const figures: Figures = await client.rpc.sendRequest('workspace/executeCommand', {
      ...command,
      workDoneToken: 'search',
    });
    expect(kinds[0]).toBe('begin');
    expect(kinds.filter((kind) => kind === 'report').length).toBeGreaterThan(5);
    expect(kinds.at(-1)).toBe('end');
    await expect.poll(() => client.applied.length).toBe(1);
    const texts = client.applied[0]?.edit.documentChanges[0]?.edits.map(({ newText }) => newText);
    const { x_m = 0, y_m = 0, delay_ms } = figures.candidates[1]?.subwoofers.sub ?? {};
    // One edit: the place, and the delay that belongs to it.
    expect(texts).toEqual([metres(x_m), metres(y_m), `${delay_ms} ms`]);
  });

  test('then has an action for each candidate, until the room changes in more than its place', async () => {
    const client = await inMemory(null);
    const figures: Figures = await client.rpc.sendRequest('workspace/executeCommand', command);
    expect(client.applied).toEqual([]);
    const moves = async () =>
      (await actions(client)).filter(({ title }) => title.startsWith('Move `sub`'));
    const found = await moves();
    expect(found.length).toBe(Math.min(3, figures.candidates.length));
    const { x_m = 0, y_m = 0 } = figures.candidates[0]?.subwoofers.sub ?? {};
    expect(found[0]?.title).toContain(`candidate 1 (x ${metres(x_m)}, y ${metres(y_m)}: flatness`);
    client.change(ROOM, 2, ROOM_TEXT.replace('x: 1.70 m, y: 0.60 m', 'x: 1.00 m, y: 0.60 m'));
    expect((await moves()).length).toBe(found.length);
    client.change(ROOM, 3, ROOM_TEXT.replace('width: 4.20 m', 'width: 4.40 m'));
    expect(await moves()).toEqual([]);
  });

  test('other requests are served in between, and the search can be stopped', async () => {
    const client = await inMemory(null);
    const source = new CancellationTokenSource();
    const running = client.rpc.sendRequest('workspace/executeCommand', command, source.token);
    await client.rpc.sendRequest('textDocument/foldingRange', { textDocument: { uri: ROOM } });
    source.cancel();
    await expect(running.then((answer) => answer ?? 'stopped')).resolves.toBe('stopped');
    expect((await actions(client)).some(({ title }) => title.startsWith('Move'))).toBe(false);
  });
});

test('an unknown command is refused; one without sense answers nothing', async () => {
  const client = await inMemory(null);
  await expect(
    client.rpc.sendRequest('workspace/executeCommand', { command: 'groundbass.unheard' }),
  ).rejects.toThrow('no command');
  expect(
    await client.rpc.sendRequest('workspace/executeCommand', {
      command: FIND_PLACEMENTS,
      arguments: [7],
    }),
  ).toBeNull();
});
