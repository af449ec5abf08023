// The demo facility: without faults but for the room of mistakes; and its loudspeakers where the standards want them.

import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { MATERIALS } from '../../core/acoustics/materials.ts';
import type { NamedFile, ResolveContext } from '../../schema/model/resolved.ts';
import type { Room } from '../../schema/model/room.ts';
import { checkFacility } from '../../schema/resolve/checkFacility.ts';
import { checkFacilityRooms } from '../../schema/resolve/checkFacilityRooms.ts';
import { checkGear } from '../../schema/resolve/checkGear.ts';
import { resolveAlternative } from '../../schema/resolve/resolveAlternative.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';
import { expectNear } from '../support/expectNear.ts';
import { named } from './small.ts';

const examples = new URL('../../examples/', import.meta.url);
const load = (kind: 'gear' | 'room' | 'facility', name: string): NamedFile =>
  named(name, kind, readFileSync(new URL(name, examples), 'utf8'));
const list = (folder: string) =>
  readdirSync(new URL(folder, examples))
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => folder + name);

const gear = list('gear/').map((name) => load('gear', name));
const rooms = list('rooms/').map((name) => load('room', name));
const context: ResolveContext = {
  gear,
  facility: load('facility', 'facility.yaml'),
  defaultSampleRate_hz: null,
  fileExists: (path) => existsSync(new URL(`rooms/${path}`, examples)),
  materials: [...MATERIALS.keys()],
};

const nameOf = ({ file }: NamedFile) => file.replace(/^rooms\/|\.room\.yaml$/g, '');
const roomOf = (name: string): Room => {
  const found = rooms.find((room) => nameOf(room) === name);
  if (found === undefined) throw new Error(`no room ${name}`);
  return resolveRoom(found.parsed, context).room;
};

test.each(gear)('$file is without faults', ({ parsed }) => {
  expect([...parsed.problems, ...checkGear(parsed, gear).problems]).toEqual([]);
});

test('the facility is without faults, and no item is in two rooms', () => {
  expect(context.facility?.parsed.problems).toEqual([]);
  if (context.facility !== null)
    expect(checkFacility(context.facility.parsed, context).problems).toEqual([]);
  expect([...checkFacilityRooms(rooms)]).toEqual([]);
});

test.each(rooms.filter((room) => nameOf(room) !== 'cuckoo'))('$file is without faults', (room) => {
  const resolved = resolveRoom(room.parsed, context);
  expect([...room.parsed.problems, ...resolved.problems]).toEqual([]);
  expect(resolved.room.gaps.filter(({ reason }) => reason !== 'unknown')).toEqual([]);
  expect(
    resolved.references.filter(
      ({ kind, target }) => target === null && kind !== 'wall' && kind !== 'finding',
    ),
  ).toEqual([]);
});

test('the room of mistakes shows what a file can get wrong', () => {
  const cuckoo = rooms.find((room) => nameOf(room) === 'cuckoo');
  const problems = cuckoo ? resolveRoom(cuckoo.parsed, context).problems : [];
  expect([...(cuckoo?.parsed.problems ?? []), ...problems].map(({ code }) => code)).toEqual([
    'quantity/unit-missing',
    'reference/wall',
    'reference/gear',
    'reference/seat',
    'reference/item-twice',
    'reference/port',
    'reference/direction',
    'reference/control',
  ]);
});

test('alternatives of the stereo room can be built', () => {
  const heron = rooms.find((room) => nameOf(room) === 'heron');
  for (const id of ['by_left_wall', 'no_sub'])
    expect(heron && resolveAlternative(heron.parsed, id, context)?.problems).toEqual([]);
});

/** Azimuth by channel, + = the listener's left. @source ITU-R BS.775-3 and BS.2051, nominal angles */
const AZIMUTH_DEG: Readonly<Record<string, number>> = {
  L: 30,
  R: -30,
  C: 0,
  Ls: 110,
  Rs: -110,
  'M+090': 90,
  'M-090': -90,
  'M+135': 135,
  'M-135': -135,
  'U+045': 45,
  'U-045': -45,
  'U+135': 135,
  'U-135': -135,
};

describe.each(['heron', 'kestrel', 'osprey', 'wren', 'dunlin'])('%s', (name) => {
  const { seats, speakers } = roomOf(name);
  const seat = seats.find(({ isReference }) => isReference)?.at;

  test.each(speakers.map(({ id, channel, at }) => ({ id, channel, at })))(
    '$id is where its channel is wanted',
    ({ channel, at }) => {
      if (seat === null || seat === undefined || at === null) throw new Error('no place');
      const azimuth = Math.atan2(seat.x_m - at.x_m, seat.y_m - at.y_m) * (180 / Math.PI);
      // Positions are told to a centimetre or an eighth of an inch: at 1.5 m that is 0.4°.
      expectNear(azimuth, AZIMUTH_DEG[channel ?? ''] ?? Number.NaN, 0.4, '°');
    },
  );
});
