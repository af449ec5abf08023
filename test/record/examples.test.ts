// The demo facility shows the whole record: a room that is in date, one whose re-check is due and which has drifted, one that was edited
// after it was signed.

import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { readRoom } from '../../server/cli/files.ts';
import { processIo } from '../../server/cli/io.ts';
import { stampedRooms } from './stampExamples.ts';
import { exampleText, setupOf } from './textRoom.ts';

function readKestrel() {
  const file = fileURLToPath(new URL('../../examples/rooms/kestrel.room.yaml', import.meta.url));
  return readRoom(file, processIo(), { lowEnd: false });
}

test('the fingerprints in the demo rooms are fresh: npx tsx test/record/stampExamples.ts', () => {
  const stale = [...stampedRooms()].filter(([file, text]) => exampleText(file) !== text);
  expect(stale.map(([file]) => file)).toEqual([]);
});

function recordOf(room: string) {
  const { record, findings } = setupOf(exampleText(`rooms/${room}.room.yaml`));
  return {
    record,
    codes: findings.map(({ code }) => code).filter((code) => code.startsWith('record/')),
  };
}

test('heron is signed off, measured, listened to, and in date', () => {
  const { record, codes } = recordOf('heron');
  expect(record?.state).toBe('signed');
  expect(record?.signOff).toMatchObject({ tie: 'in_date', isMeasured: true, due: '2027-11-04' });
  expect(record?.listening.length).toBeGreaterThan(4);
  expect(
    record?.listening.every(({ state, result }) => state === 'done' && result === 'good'),
  ).toBe(true);
  expect(codes).toEqual([]);
});

test('kestrel is due for its re-check, and its first session is of another set-up', () => {
  const { record, codes } = recordOf('kestrel');
  expect(record?.state).toBe('recheck_due');
  expect(record?.sessions.map(({ tie, changed }) => [tie, changed])).toEqual([
    ['out_of_date', ['places']],
    ['in_date', []],
    ['in_date', []],
  ]);
  expect(codes).toEqual(['record/recheck-due', 'record/listening-open']);
});

test('and its right loudspeaker has lost the 4 dB of treble that were taken off it', async () => {
  const { room } = await readKestrel();
  const pair = room.setup?.drift?.pairs.find(
    ({ earlier, later }) => earlier === 'spring_2026' && later === 'autumn_2026',
  );
  expect(pair?.changed).toEqual([]);
  const [left, right] = pair?.takes ?? [];
  expect(left?.moved).toEqual([]);
  expect(right?.moved).toContain('response');
  const { frequency_hz = [], moved_db = [] } = right?.response ?? {};
  const at = (hz: number) => moved_db[frequency_hz.indexOf(hz)] ?? Number.NaN;
  // 4/(1 + (3/8)⁴) dB at 8 kHz and nothing at 500 Hz, by hand; what the microphone adds is 0.15 dB a point and session.
  expect(Math.abs(at(500) - at(8000) - 3.92)).toBeLessThan(0.4);
  expect(room.setup?.findings.map(({ code }) => code)).toContain('record/drift');
});

test('dunlin was edited after it was signed', () => {
  const { record, codes } = recordOf('dunlin');
  expect(record?.state).toBe('out_of_date');
  expect(record?.signOff?.changed).toEqual(['places', 'settings']);
  expect(codes).toContain('record/sign-off-out-of-date');
});
