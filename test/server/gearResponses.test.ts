// Response files that gear names: read from the gear file's folder inside the fence, again when they change; faults at their line.

import { expect, test } from 'vitest';
import { documentLinks } from '../../server/features/documentLinks.ts';
import { createSession } from '../../server/session.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
  TODAY,
} from './support/facility.ts';
import { memoryFiles } from './support/memoryFiles.ts';

const RESPONSE = 'file:///facility/gear/responses/tern-5.txt';
const STATED = 'low_end: { minus_6_db: 55 Hz, slope: 24 dB/oct, kind: vented }';

/** 12 dB/octave below a corner: level, and a phase where wanted. */
function text(corner_hz: number, hasPhase: boolean): string {
  const rows = Array.from({ length: 60 }, (_, i) => {
    const f_hz = 15 * 2 ** (i / 10);
    const x = f_hz / corner_hz;
    const level_db = 10 * Math.log10(x ** 4 / (1 + x ** 4));
    const phase_deg = 180 - (Math.atan2(Math.SQRT2 * x, 1 - x * x) * 180) / Math.PI;
    return [
      f_hz.toFixed(2),
      (88 + level_db).toFixed(2),
      ...(hasPhase ? [phase_deg.toFixed(1)] : []),
    ].join(' ');
  });
  return rows.join('\n');
}

function facility(lowEnd: string, more: readonly (readonly [string, string])[] = []) {
  const texts = new Map([
    [FACILITY, FACILITY_TEXT],
    [ROOM, ROOM_TEXT],
    [GEAR, GEAR_TEXT.replace(STATED, lowEnd)],
    ...more,
  ]);
  const session = createSession(memoryFiles(texts), () => TODAY);
  const gear = async () => (await session.analysis(ROOM))?.setup?.room.speakers[0]?.gear ?? null;
  const told = async () =>
    ((await session.analysis(GEAR))?.remarks ?? []).map(({ code, message, range }) => ({
      code,
      message,
      at: texts.get(GEAR)?.slice(range.start, range.end),
    }));
  return { texts, session, gear, told };
}

test('the −6 dB point and the slope follow from the file, found from the folder of the gear file', async () => {
  const { session, gear, told } = facility('low_end: { response: responses/tern-5.txt }', [
    [RESPONSE, text(60, true)],
  ]);
  const { lowEnd } = (await gear()) ?? {};
  expect(lowEnd?.minus6db_hz).toBeCloseTo(60 / (10 ** 0.6 - 1) ** 0.25, 0);
  expect(lowEnd?.slope_db_oct).toBe(12);
  expect(lowEnd?.response?.phaseFrom).toBe('file');
  // And it can be followed from there.
  const analysis = await session.analysis(GEAR);
  expect(analysis && documentLinks(analysis).map(({ target }) => target)).toEqual([RESPONSE]);
  expect(await told()).toEqual([]);
});

test('a file that changes on the disk is read again; one that says the same changes nothing', async () => {
  const { texts, session, gear } = facility('low_end: { response: responses/tern-5.txt }', [
    [RESPONSE, text(60, false)],
  ]);
  const before = await gear();
  session.changedOnDisk([RESPONSE]);
  expect(await gear()).toBe(before);
  texts.set(RESPONSE, text(90, false));
  session.changedOnDisk([RESPONSE]);
  expect((await gear())?.lowEnd?.minus6db_hz).toBeCloseTo(90 / (10 ** 0.6 - 1) ** 0.25, 0);
});

test.each([
  ['gone.txt', 'reference/file', 'There is no file `gone.txt`'],
  ['../../secret.txt', 'reference/response', 'outside the facility'],
  ['responses/empty.txt', 'reference/response', 'only 0 lines'],
  ['responses/late.txt', 'reference/response', 'its phase falls as by a delay of 2.9 ms'],
  ['responses/odd.txt', 'reference/response', 'line 3'],
])('%s is told at its place in the gear file', async (file, code, message) => {
  const late = text(60, true)
    .split('\n')
    .map((row) => {
      const [f = '', level = '', phase = ''] = row.split(' ');
      return `${f} ${level} ${(Number(phase) - 360 * Number(f) * 0.0029).toFixed(1)}`;
    });
  const odd = text(60, true).split('\n');
  odd.splice(2, 0, '20.0 8o');
  const { gear, told } = facility(`low_end: { response: ${file} }`, [
    ['file:///secret.txt', text(60, true)],
    ['file:///facility/gear/responses/empty.txt', 'nothing here'],
    ['file:///facility/gear/responses/late.txt', late.join('\n')],
    ['file:///facility/gear/responses/odd.txt', odd.join('\n')],
  ]);
  const [one, ...others] = await told();
  expect(others).toEqual([]);
  expect(one).toMatchObject({ code, at: file });
  expect(one?.message).toContain(message);
  // The room is worked out from what else is known.
  expect((await gear())?.latency_s).toEqual([{ port: '*', latency_s: 0.001 }]);
});

test('a position of a switch that has a file changes what is sent through it', async () => {
  const gearText = GEAR_TEXT.replace(
    'paths: [in -> level -> driver]',
    'paths: [in -> level -> tilt -> driver]',
  ).replace(
    'level: { min: -12 dB, max: 6 dB, step: 0.5 dB }\n',
    'level: { min: -12 dB, max: 6 dB, step: 0.5 dB }\n      tilt: { choices: [flat, desk], responses: { desk: desk.txt } }\n',
  );
  const texts = new Map([
    [FACILITY, FACILITY_TEXT],
    [GEAR, gearText],
    ['file:///facility/gear/desk.txt', '10 -4\n100 -4\n300 -4\n2000 0'],
    [ROOM, ROOM_TEXT],
  ]);
  const session = createSession(memoryFiles(texts), () => TODAY);
  const gear = (await session.analysis(ROOM))?.setup?.room.speakers[0]?.gear;
  const tilt = gear?.controls.find(({ name }) => name === 'tilt');
  expect(tilt).toMatchObject({ kind: 'switch', responses: [{ choice: 'desk' }] });
});
