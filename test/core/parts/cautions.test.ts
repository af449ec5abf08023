// The cautions of the sheet: those that the room's gear calls for, each deferring to licensed people and local codes.

import { expect, test } from 'vitest';
import { cautionsPart } from '../../../core/parts/cautions.ts';
import { EMPTY_ROOM, gear, point, speaker, stereoRoom, subwoofer } from '../../support/rooms.ts';

const all = (room: Parameters<typeof cautionsPart>[0]) => cautionsPart(room).join('\n');

test('every room with gear: mains, earth, muting, hearing', () => {
  const text = all(stereoRoom());
  expect(text).toMatch(/licensed people, by the local code/);
  expect(text).toMatch(/protective earth/);
  expect(text).toMatch(/mute before plugging/);
  expect(text).toMatch(/20 dB below the reference level/);
  expect(text).not.toMatch(/Overhead|Heavy|circuit figures/);
});

test('an empty room has none', () => {
  expect(cautionsPart(EMPTY_ROOM)).toEqual([]);
});

test('over 25 kg: two people; at 25 kg not yet', () => {
  const sub = (mass_kg: number) =>
    subwoofer('sub', null, { gear: gear('moor', 'subwoofer', { mass_kg }) });
  expect(all(stereoRoom({ subwoofers: [sub(25.1)] }))).toMatch(/Heavy \(over 25 kg\): sub\./);
  expect(all(stereoRoom({ subwoofers: [sub(25)] }))).not.toMatch(/Heavy/);
});

test('overhead loudspeakers: qualified and competent persons, design factor 5', () => {
  // wording after US OSHA terms (qualified, competent person) and the rigging trade's 5 : 1
  const top = (z_m: number) => speaker('top', 'Ltf', point(1, 1, z_m));
  const hung = all(stereoRoom({ speakers: [top(2.3)] }));
  expect(hung).toMatch(/Overhead: top\. A qualified person/);
  expect(hung).toMatch(/at least 5/);
  expect(all(stereoRoom({ speakers: [top(1.9)] }))).not.toMatch(/Overhead/);
});

test('circuits: the figures are estimates', () => {
  const circuits = [{ id: 'tech', rating_a: 16, voltage_v: 230, feeds: ['left'] }];
  expect(all(stereoRoom({ circuits }))).toMatch(/a licensed person decides/);
});
