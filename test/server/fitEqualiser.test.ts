// The fit of an equaliser through the real protocol, what is found for the pane, and a room as it would be with an edit.

import { afterEach, describe, expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import type { CodeAction, CodeLens } from 'vscode-languageserver';
import { FIND_PLACEMENTS, FIT_EQUALISER } from '../../server/protocol/commands.ts';
import { TRY_REQUEST, type TryAnswer } from '../../server/protocol/search.ts';
import { SETUP_REQUEST, type SetupAnswer } from '../../server/protocol/setup.ts';
import { choosing } from './support/choosing.ts';
import type { Client } from './support/client.ts';
import { GEAR_TEXT, ROOM, ROOM_TEXT } from './support/facility.ts';

const { inMemory, stopped } = choosing();
afterEach(stopped);

const gear = GEAR_TEXT.replace('bass -> delay', 'bass -> eq -> delay').replace(
  '      level: { min: -20 dB',
  '      eq: { bands: 3, frequency: { min: 20 Hz, max: 200 Hz, step: 1 Hz }, gain: { min: -12 dB, max: 3 dB, step: 0.5 dB }, q: { min: 0.5, max: 10, step: 0.1 } }\n      level: { min: -20 dB',
);
const LINE = ROOM_TEXT.slice(0, ROOM_TEXT.indexOf('  sub: { item')).split('\n').length - 1;
const onSub = { start: { line: LINE, character: 4 }, end: { line: LINE, character: 4 } };
const command = { command: FIT_EQUALISER, arguments: [{ uri: ROOM, device: 'sub' }] };

const actions = async ({ rpc }: Client): Promise<readonly CodeAction[]> =>
  rpc.sendRequest('textDocument/codeAction', {
    textDocument: { uri: ROOM },
    range: onSub,
    context: { diagnostics: [] },
  });
const titles = async (client: Client) => (await actions(client)).map(({ title }) => title);
const setupOf = ({ rpc }: Client): Promise<SetupAnswer> =>
  rpc.sendRequest(SETUP_REQUEST, { uri: ROOM });

interface Figures {
  readonly fits: readonly {
    readonly before_db: number;
    readonly after_db: number;
    readonly bands: readonly { readonly frequency_hz: number }[];
  }[];
}

describe('a subwoofer with an equaliser', () => {
  test('has a lens and an action that fit it; without one it has neither', async () => {
    const client = await inMemory(null, { gear });
    const lenses: readonly CodeLens[] = await client.rpc.sendRequest('textDocument/codeLens', {
      textDocument: { uri: ROOM },
    });
    const own = lenses.filter((one) => one.command?.command === FIT_EQUALISER);
    expect(own.map(({ range }) => range.start.line)).toEqual([LINE]);
    expect(await titles(client)).toContain('Fit EQ of `sub` to the predicted response');
    await stopped();
    expect((await titles(await inMemory(null))).some((title) => title.includes('EQ'))).toBe(false);
  });

  test('is fitted, says before and after, and writes the bands as one edit', async () => {
    const client = await inMemory(0, { gear });
    const { fits }: Figures = await client.rpc.sendRequest('workspace/executeCommand', command);
    const [fit] = fits;
    if (fit === undefined) throw new Error('nothing fitted');
    expect(fit.after_db).toBeLessThan(fit.before_db);
    await expect.poll(() => client.applied.length).toBe(1);
    const said = `mix ${fit.before_db.toFixed(1)} → ${fit.after_db.toFixed(1)} dB`;
    expect(client.asked[0]).toContain(said);
    const [edit, ...more] = client.applied[0]?.edit.documentChanges[0]?.edits ?? [];
    expect(more).toEqual([]);
    expect(edit?.newText).toContain(`frequency: ${fit.bands[0]?.frequency_hz} Hz`);
    expect(await titles(client)).toContain(`Write the fitted EQ of \`sub\` (${said})`);
  });

  test('is forgotten once something else of the room changes', async () => {
    const client = await inMemory(null, { gear });
    await client.rpc.sendRequest('workspace/executeCommand', command);
    client.change(ROOM, 2, ROOM_TEXT.replace('width: 4.20 m', 'width: 4.40 m'));
    expect((await titles(client)).some((title) => title.startsWith('Write'))).toBe(false);
  });

  test('can be stopped', async () => {
    const client = await inMemory(null, { gear });
    const source = new CancellationTokenSource();
    const running = client.rpc.sendRequest('workspace/executeCommand', command, source.token);
    source.cancel();
    await expect(
      running.then(
        (answer) => answer ?? 'stopped',
        () => 'stopped',
      ),
    ).resolves.toBe('stopped');
    expect((await titles(client)).some((title) => title.startsWith('Write'))).toBe(false);
  });
});

describe('what the pane is told', () => {
  test('candidates and fits go with the setup, as long as they hold', async () => {
    const client = await inMemory(null, { gear });
    expect((await setupOf(client)).found).toBeUndefined();
    const quiet = { uri: ROOM, subwoofer: 'sub', quiet: true };
    await client.rpc.sendRequest('workspace/executeCommand', {
      command: FIND_PLACEMENTS,
      arguments: [quiet],
    });
    await client.rpc.sendRequest('workspace/executeCommand', {
      command: FIT_EQUALISER,
      arguments: [{ uri: ROOM, device: 'sub', quiet: true }],
    });
    expect(client.asked).toEqual([]);
    const { found } = await setupOf(client);
    expect(found?.places[0]?.name).toBe('sub');
    expect(found?.places[0]?.candidates[0]?.flatness_db).toBeGreaterThan(0);
    expect(found?.fits[0]?.seats[0]?.beforeLevel_db.length).toBe(
      found?.fits[0]?.frequency_hz.length,
    );
    client.change(ROOM, 2, ROOM_TEXT.replace('width: 4.20 m', 'width: 4.40 m'));
    expect((await setupOf(client)).found).toBeUndefined();
  });

  test('a candidate tried on is the room as it would be: the file stays as it is', async () => {
    const client = await inMemory(null);
    await client.rpc.sendRequest('workspace/executeCommand', {
      command: FIND_PLACEMENTS,
      arguments: [{ uri: ROOM, subwoofer: 'sub', quiet: true }],
    });
    const before = await setupOf(client);
    const place = before.found?.places[0]?.candidates[0];
    if (place === undefined) throw new Error('nothing found');
    const params = { uri: ROOM, version: 1, edits: place.edits };
    const tried: TryAnswer = await client.rpc.sendRequest(TRY_REQUEST, params);
    const at = tried?.setup?.room.subwoofers[0]?.at;
    expect([at?.x_m, at?.y_m]).toEqual([place.at.x_m, place.at.y_m]);
    expect(tried?.setup?.field?.seats[0]?.channels.length).toBeGreaterThan(0);
    const after = await setupOf(client);
    expect(after.setup?.room.subwoofers[0]?.at).toEqual(before.setup?.room.subwoofers[0]?.at);
    // What was tried is what the file comes to once it is written.
    const path = ['subwoofers', 'nobody', 'at', 'x'];
    const gone = { uri: ROOM, version: 1, edits: [{ do: 'remove', path }] };
    expect(await client.rpc.sendRequest(TRY_REQUEST, gone)).toBeNull();
    expect(await client.rpc.sendRequest(TRY_REQUEST, { ...params, version: 9 })).toBeNull();
  });
});
