// The search for places of the main pair and of the seat through the real protocol: actions, offer, and what is remembered.

import { afterEach, expect, test } from 'vitest';
import type { CodeAction } from 'vscode-languageserver';
import { MOVE_OTHERS, type Moveable } from '../../server/protocol/commands.ts';
import { SETUP_REQUEST, type SetupAnswer } from '../../server/protocol/setup.ts';
import { choosing } from './support/choosing.ts';
import type { Client } from './support/client.ts';
import { ROOM, ROOM_TEXT } from './support/facility.ts';

const { inMemory, stopped } = choosing();
afterEach(stopped);

async function titlesAt({ rpc }: Client, text: string): Promise<readonly string[]> {
  const line = ROOM_TEXT.slice(0, ROOM_TEXT.indexOf(text)).split('\n').length - 1;
  const at = { line, character: 4 };
  const actions: readonly CodeAction[] = await rpc.sendRequest('textDocument/codeAction', {
    textDocument: { uri: ROOM },
    range: { start: at, end: at },
    context: { diagnostics: [] },
  });
  return actions.map(({ title }) => title);
}

const ROWS: readonly (readonly [Moveable, string, string, readonly string[]])[] = [
  ['mains', '  left: { gear', 'the main pair', ['speakers', 'left']],
  ['seat', '  mix: { at', '`mix`', ['seats', 'mix']],
];

test.each(ROWS)('%s', async (move, line, name, path) => {
  const client = await inMemory(0);
  expect(await titlesAt(client, line)).toContain(`Find places for ${name}`);
  expect(await titlesAt(client, '  sub: { item')).not.toContain(`Find places for ${name}`);
  const { candidates }: { candidates: readonly { places: Record<string, { x_m: number }> }[] } =
    await client.rpc.sendRequest('workspace/executeCommand', {
      command: MOVE_OTHERS,
      arguments: [{ uri: ROOM, move }],
    });
  expect(candidates.length).toBeGreaterThan(0);
  // One edit, of x and y of what is moved.
  await expect.poll(() => client.applied.length).toBe(1);
  const edits = client.applied[0]?.edit.documentChanges[0]?.edits ?? [];
  expect(edits.length).toBe(move === 'mains' ? 4 : 2);
  expect(edits[0]?.newText).toBe(`${candidates[0]?.places[path[1] ?? '']?.x_m.toFixed(2)} m`);
  const titles = await titlesAt(client, line);
  expect(titles.some((title) => title.startsWith(`Move ${name} to candidate 1 (`))).toBe(true);
  const { found }: SetupAnswer = await client.rpc.sendRequest(SETUP_REQUEST, { uri: ROOM });
  expect(found?.places[0]?.what).toBe(move);
  client.change(ROOM, 2, ROOM_TEXT.replace('width: 4.20 m', 'width: 4.40 m'));
  expect((await titlesAt(client, line)).some((title) => title.startsWith('Move'))).toBe(false);
});
