// Files: what lies around a room is found, and nothing outside the fence is.

import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { LARGEST_FILE_bytes, OUR_GLOBS, staysBelow } from '../../server/files/files.ts';
import { kindByFirstKey } from '../../server/files/kindByFirstKey.ts';
import { relativeTo, sameUri, upwards } from '../../server/files/uri.ts';
import { fileUri, nodeFiles } from '../../server/node/nodeFiles.ts';
import { createSession } from '../../server/session.ts';
import { FACILITY_TEXT, GEAR_TEXT, ROOM_TEXT, TODAY } from './support/facility.ts';

let base = '';

/** base/facility with rooms and gear, and base/outside with a gear file that links and globs try to reach. */
beforeAll(() => {
  base = realpathSync(mkdtempSync(join(tmpdir(), 'files-')));
  for (const folder of ['facility/rooms', 'facility/gear', 'outside'])
    mkdirSync(join(base, folder), { recursive: true });
  writeFileSync(join(base, 'facility/facility.yaml'), FACILITY_TEXT);
  writeFileSync(join(base, 'facility/gear/test.gear.yaml'), GEAR_TEXT);
  writeFileSync(join(base, 'facility/rooms/test.room.yaml'), ROOM_TEXT);
  writeFileSync(join(base, 'outside/secret.gear.yaml'), GEAR_TEXT.replaceAll('tern_5', 'secret_1'));
  symlinkSync(join(base, 'outside/secret.gear.yaml'), join(base, 'facility/gear/link.gear.yaml'));
  symlinkSync(join(base, 'outside'), join(base, 'facility/gear/folder'));
});

afterAll(() => rmSync(base, { recursive: true, force: true }));

test('links that lead out of the folder are not followed', async () => {
  const found = await nodeFiles.find(fileUri(join(base, 'facility')), OUR_GLOBS);
  expect(found.map((uri) => relativeTo(fileUri(base), uri))).toEqual([
    'facility/facility.yaml',
    'facility/gear/test.gear.yaml',
    'facility/rooms/test.room.yaml',
  ]);
});

test.each([
  '../outside/*.gear.yaml',
  '/etc/*',
  'gear/../../outside/*',
  '!gear/*',
  'file:///x',
  'a\\b',
])('the glob %s leads out and finds nothing', async (glob) => {
  expect(staysBelow(glob)).toBe(false);
  expect(await nodeFiles.find(fileUri(join(base, 'facility')), [glob])).toEqual([]);
});

test('a file outside is none that exists', () => {
  const fence = fileUri(join(base, 'facility'));
  expect(nodeFiles.exists(fileUri(join(base, 'facility/facility.yaml')), fence)).toBe(true);
  expect(nodeFiles.exists(fileUri(join(base, 'facility/gear/link.gear.yaml')), fence)).toBe(false);
});

test('what is missing, a folder or far too large reads as nothing', async () => {
  const large = join(base, 'facility/rooms/large.room.yaml');
  writeFileSync(large, 'x'.repeat(LARGEST_FILE_bytes + 1));
  expect(await nodeFiles.read(fileUri(large))).toBeNull();
  expect(await nodeFiles.read(fileUri(join(base, 'facility')))).toBeNull();
  expect(await nodeFiles.read(fileUri(join(base, 'nobody.room.yaml')))).toBeNull();
  rmSync(large);
});

test('a room finds its facility upwards and the gear that it names', async () => {
  const session = createSession(nodeFiles, () => TODAY);
  const analysis = await session.analysis(fileUri(join(base, 'facility/rooms/test.room.yaml')));
  expect(analysis?.surroundings.facility?.uri).toBe(fileUri(join(base, 'facility/facility.yaml')));
  expect(analysis?.surroundings.gear).toHaveLength(1);
  expect(analysis?.setup?.room.speakers[0]?.gear?.id).toBe('tern_5');
});

test('a file changed on the disk is read again once that is told', async () => {
  const session = createSession(nodeFiles, () => TODAY);
  const gear = join(base, 'facility/gear/test.gear.yaml');
  const room = fileUri(join(base, 'facility/rooms/test.room.yaml'));
  const codes = async () => (await session.analysis(room))?.remarks.map(({ code }) => code) ?? [];
  expect(await codes()).not.toContain('reference/gear');
  writeFileSync(gear, GEAR_TEXT.replaceAll('tern_5', 'tern_9'));
  session.changedOnDisk([fileUri(gear)]);
  expect(await codes()).toContain('reference/gear');
  writeFileSync(gear, GEAR_TEXT);
});

test('the same text is analysed once', async () => {
  const session = createSession(nodeFiles, () => TODAY);
  const room = fileUri(join(base, 'facility/rooms/test.room.yaml'));
  expect(await session.analysis(room)).toBe(await session.analysis(room));
});

test('uris are one spelling, and upwards ends at the top', () => {
  expect(sameUri('file:///c%3A/rooms/a.room.yaml')).toBe(sameUri('file:///c:/rooms/a.room.yaml'));
  expect(upwards('file:///a/b')).toEqual(['file:///a/b', 'file:///a', 'file:///']);
});

test.each([
  ['room: 1\n', 'room'],
  ['# a comment\n\ngear: 1 # version\nmodels: {}\n', 'gear'],
  ['\uFEFFfacility: 1\r\n', 'facility'],
  ['room: yes\n', null],
  ['services:\n  room: 1\n', null],
  ['', null],
])('the first key of %j', (text, kind) => {
  expect(kindByFirstKey(text)).toBe(kind);
});
