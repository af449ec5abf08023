// Takes of a room on a disk: read inside the fence, told at their lines, followed when they change.

import { mkdirSync, mkdtempSync, realpathSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeEach, expect, test, vi } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import { fieldAtOnce } from '../../server/field/fieldPhase.ts';
import { type MeasuredListener, measuredLater } from '../../server/measured/measuredLater.ts';
import { measuredAtOnce } from '../../server/measured/measuredPhase.ts';
import { measuredWorkerHere } from '../../server/measured/measuredWorkers.ts';
import { fileUri, nodeFiles } from '../../server/node/nodeFiles.ts';
import { createSession, type Session } from '../../server/session.ts';
import { FACILITY_TEXT, GEAR_TEXT, ROOM_TEXT, TODAY } from '../server/support/facility.ts';
import { expectNear } from '../support/expectNear.ts';
import { roomImpulse, wavOf } from './takeBytes.ts';

const base = realpathSync(mkdtempSync(join(tmpdir(), 'takes-')));
afterAll(() => rmSync(base, { recursive: true, force: true }));

const SESSIONS = `sessions:
  autumn:
    date: 2026-11-03
    microphone: { correction: ../mics/gone.txt }
    takes:
      left: { file: takes/left.wav, drive: L, sounding: [left], seat: mix, timing: loopback }
      text: { file: takes/text.txt, drive: L, sounding: [sub], seat: mix }
      broken: { file: takes/broken.wav, drive: L, sounding: [left], seat: mix }
      gone: { file: takes/gone.wav, drive: L, sounding: [left], seat: mix }
      out: { file: ../../outside/secret.wav, drive: L, sounding: [left], seat: mix }
      link: { file: takes/link.wav, drive: L, sounding: [left], seat: mix }
    averages:
      two: { takes: [left, text], by: power }
      three: { takes: [left, broken], by: power }
`;
const ROOM = join(base, 'facility/rooms/test.room.yaml');
const LEFT = join(base, 'facility/rooms/takes/left.wav');

beforeEach(() => {
  for (const folder of ['facility/rooms/takes', 'facility/gear', 'outside'])
    mkdirSync(join(base, folder), { recursive: true });
  writeFileSync(join(base, 'facility/facility.yaml'), FACILITY_TEXT);
  writeFileSync(join(base, 'facility/gear/test.gear.yaml'), GEAR_TEXT);
  writeFileSync(ROOM, ROOM_TEXT + SESSIONS);
  writeFileSync(LEFT, wavOf([roomImpulse(0.0061, 0.5)]));
  writeFileSync(join(base, 'outside/secret.wav'), wavOf([roomImpulse(0.0061, 0.5)]));
  writeFileSync(join(base, 'facility/rooms/takes/text.txt'), '20 -3\n40 0\n80 -1\n160 -20\n');
  writeFileSync(join(base, 'facility/rooms/takes/broken.wav'), 'RIFF');
  rmSync(join(base, 'facility/rooms/takes/link.wav'), { force: true });
  symlinkSync(join(base, 'outside/secret.wav'), join(base, 'facility/rooms/takes/link.wav'));
});

const takeOf = (analysis: Analysis | null, id: string) =>
  analysis?.setup?.measured?.sessions[0]?.takes.find(({ take }) => take === id);

const told = (analysis: Analysis | null) =>
  (analysis?.remarks ?? [])
    .filter(({ code }) => /^(measurement|reference)\//.test(code))
    .map(({ code, path, message }) => `${code} ${path.slice(2).join('.')}: ${message}`);

async function atOnce(): Promise<Analysis | null> {
  const session = createSession(
    nodeFiles,
    () => TODAY,
    null,
    fieldAtOnce(() => undefined),
    measuredAtOnce(nodeFiles, () => undefined),
  );
  return session.whole(fileUri(ROOM));
}

test('at once: what is sound is read, what is not is told where the take names it', async () => {
  const whole = await atOnce();
  expectNear([takeOf(whole, 'left')?.arrival_s ?? 0], [0.0061], 2e-5, 's');
  expect(takeOf(whole, 'left')).toMatchObject({ drive: 'L', sounding: ['left'], seat: 'mix' });
  expect(takeOf(whole, 'text')?.response?.level_db).toEqual([-3, 0, -1, -20]);
  for (const id of ['broken', 'gone', 'out', 'link'])
    expect(takeOf(whole, id)).toMatchObject({ kind: null, response: null });
  expect(told(whole)).toEqual([
    'reference/file microphone.correction: There is no file `../mics/gone.txt`',
    'measurement/unreadable takes.broken.file: broken: this is no WAV file, or one without format or samples',
    'reference/file takes.gone.file: There is no file `takes/gone.wav`',
    'reference/file takes.out.file: There is no file `../../outside/secret.wav`',
    'reference/file takes.link.file: There is no file `takes/link.wav`',
  ]);
});

test('averages: formed where their takes tell the same, else refused with the reason', async () => {
  const averages = (await atOnce())?.setup?.measured?.sessions[0]?.averages ?? [];
  expect(averages.map(({ average, response }) => [average, response !== null])).toEqual([
    ['two', true],
    ['three', false],
  ]);
  expect(averages[1]?.refusals).toEqual(['No response of `broken`']);
});

test('in an editor: known a little later, and again when the file on the disk is another', async () => {
  const changed: string[] = [];
  const session = editorSession({ changed: (uri) => void changed.push(uri) });
  const uri = fileUri(ROOM);
  session.open(uri, 1, ROOM_TEXT + SESSIONS, 'groundbass-room');
  expect((await session.analysis(uri))?.setup?.measured ?? null).toBeNull();
  const arrivalOfLeft_s = async () => takeOf(await session.analysis(uri), 'left')?.arrival_s ?? 0;
  const until = (isThere: () => boolean | Promise<boolean>) =>
    vi.waitUntil(isThere, { timeout: 240_000, interval: 10 });
  await until(async () => 0 < (await arrivalOfLeft_s()));
  await until(() => changed.includes(uri));
  expectNear([await arrivalOfLeft_s()], [0.0061], 2e-5, 's');
  await session.whole(uri);
  expect(await session.analysis(uri)).toBe(await session.analysis(uri));

  writeFileSync(LEFT, wavOf([roomImpulse(0.0083, 0.5)]));
  changed.length = 0;
  session.changedOnDisk([fileUri(LEFT)]);
  // What was read before stands in until the new reading is there: nothing vanishes.
  expect(await arrivalOfLeft_s()).toBeGreaterThan(0.006);
  await until(async () => 0.0082 < (await arrivalOfLeft_s()));
  await until(() => changed.includes(uri));
  expectNear([await arrivalOfLeft_s()], [0.0083], 2e-5, 's');
  expectNear([takeOf(await session.whole(uri), 'left')?.arrival_s ?? 0], [0.0083], 2e-5, 's');
});

test('a file that was not there is read once it is, and its finding goes', async () => {
  const changed: string[] = [];
  const session = editorSession({ changed: (uri) => void changed.push(uri) });
  const uri = fileUri(ROOM);
  session.open(uri, 1, ROOM_TEXT + SESSIONS, 'groundbass-room');
  expect(takeOf(await session.whole(uri), 'gone')?.kind).toBeNull();
  const path = join(base, 'facility/rooms/takes/gone.wav');
  writeFileSync(path, wavOf([roomImpulse(0.005, 0.5)]));
  session.changedOnDisk([fileUri(path)]);
  const whole = await session.whole(uri);
  rmSync(path);
  expect(takeOf(whole, 'gone')?.kind).toBe('impulse');
  expect(told(whole).filter((line) => line.includes('gone.wav'))).toEqual([]);
});

test('typing elsewhere reads nothing again; the comparison with the plan follows the setup', async () => {
  let read = 0;
  const files = {
    ...nodeFiles,
    bytes: (...given: Parameters<typeof nodeFiles.bytes>) => {
      read += 1;
      return nodeFiles.bytes(...given);
    },
  };
  const session = editorSession({}, files);
  const uri = fileUri(ROOM);
  session.open(uri, 1, ROOM_TEXT + SESSIONS, 'groundbass-room');
  const first = await session.whole(uri);
  const count = read;
  expect(first?.setup?.verification?.takes.map(({ take }) => take)).toContain('left');
  const moved = (ROOM_TEXT + SESSIONS).replace('x: 1.40 m', 'x: 1.00 m');
  session.open(uri, 2, moved, 'groundbass-room');
  const second = await session.whole(uri);
  expect(read).toBe(count);
  const planned = (one: Analysis | null) =>
    one?.setup?.verification?.takes.find(({ take }) => take === 'left')?.arrival?.planned_s ?? 0;
  // Farther from the seat by √(1.10² + 1.21²) − √(0.70² + 1.21²) = 0.237 m: 0.69 ms at 343 m/s.
  expectNear([planned(second) - planned(first)], [0.237 / 343.4], 5e-6, 's');
  expect(takeOf(second, 'left')).toEqual(takeOf(first, 'left'));
});

function editorSession(
  listener: Partial<MeasuredListener>,
  files: typeof nodeFiles = nodeFiles,
): Session {
  const after = (time_ms: number, act: () => void) => {
    const timer = setTimeout(act, Math.min(time_ms, 20));
    return () => clearTimeout(timer);
  };
  const measured = measuredLater({ start: () => measuredWorkerHere(after), after }, files, {
    changed: () => undefined,
    long: () => () => undefined,
    log: (message) => {
      throw new Error(message);
    },
    ...listener,
  });
  return createSession(
    nodeFiles,
    () => TODAY,
    null,
    fieldAtOnce(() => undefined),
    measured,
  );
}
