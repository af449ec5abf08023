// Takes in a thread of their own, as it is shipped: the editor is answered while a long one is read.

import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, test, vi } from 'vitest';
import { fileUri } from '../../server/node/nodeFiles.ts';
import type { SetupAnswer } from '../../server/protocol/setup.ts';
import { RATE_HZ, tail } from '../measure/takes.ts';
import { bundledServer } from '../server/support/bundledServer.ts';
import { FACILITY_TEXT, GEAR_TEXT, ROOM_TEXT } from '../server/support/facility.ts';
import { wavOf } from './takeBytes.ts';

const folder = realpathSync(mkdtempSync(join(tmpdir(), 'measured-thread-')));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Its bands alone take longer than the low end of the room. */
const LONG_S = 60;
const SESSIONS = `sessions:
  autumn:
    date: 2026-11-03
    takes:
      long: { file: long.wav, drive: L, sounding: [left], seat: mix, timing: loopback }
`;

test('the editor is answered while a long take is read; then its figures are there', async () => {
  for (const name of ['rooms', 'gear']) mkdirSync(join(folder, name));
  writeFileSync(join(folder, 'facility.yaml'), FACILITY_TEXT);
  writeFileSync(join(folder, 'gear/test.gear.yaml'), GEAR_TEXT);
  writeFileSync(join(folder, 'rooms/test.room.yaml'), ROOM_TEXT + SESSIONS);
  const impulse = tail(1, 0.4, 0.2, 0.01, LONG_S).with(Math.round(0.01 * RATE_HZ), 0.9);
  writeFileSync(join(folder, 'rooms/long.wav'), wavOf([impulse]));
  const { client, ended } = await bundledServer(folder, fileUri(folder));
  const uri = fileUri(join(folder, 'rooms/test.room.yaml'));
  client.open(uri, ROOM_TEXT + SESSIONS);
  let answers = 0;
  let take: unknown;
  await vi.waitUntil(
    async () => {
      const answer: SetupAnswer = await client.rpc.sendRequest('groundbass/setup', { uri });
      if (answer.setup?.field) answers += 1;
      take = answer.setup?.measured?.sessions[0]?.takes[0];
      return take;
    },
    { timeout: 240_000, interval: 20 },
  );
  expect(take).toMatchObject({ kind: 'impulse', polarity: 'upright', faults: [] });
  // In the server's own thread no answer would have come between the low end and the take.
  expect(answers).toBeGreaterThan(2);
  await client.stop();
  expect(await ended).toBe(0);
});
