// Units of a device change no physics: whichever way a delay is told, what arrives differs by no more than the residuals that are stated.

import { describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import type { Control, DelayTelling } from '../../schema/model/gear.ts';
import type { Room } from '../../schema/model/room.ts';
import { dialledIn } from '../support/dialIn.ts';
import { expectNear } from '../support/expectNear.ts';
import { EMPTY_ROOM, point } from '../support/rooms.ts';
import {
  crossover,
  DELAY,
  decibels,
  MAIN,
  range,
  SUB,
  settings,
  subRoom,
  subRoomWith,
} from '../support/wiredRooms.ts';
import { arrivalOf, worked, workedAfresh } from '../support/worked.ts';

const TELLINGS: readonly (readonly [name: string, telling: DelayTelling, step_s: number])[] = [
  ['time, 0.05 ms', { as: 'time' }, 0.00005],
  ['time, 0.5 ms', { as: 'time' }, 0.0005],
  ['samples', { as: 'samples', rate_hz: 48_000 }, 1 / 48_000],
  ['added path', { as: 'added_path', speedOfSound_m_s: 344 }, 0.01 / 344],
  ['own distance', { as: 'own_distance', speedOfSound_m_s: 344 }, 0.05 / 344],
];

/** Mains at unequal distances, so that three different delays are needed. */
function roomTold(toldAs: DelayTelling, step_s: number): Room {
  const delay = { ...DELAY, toldAs, delay_s: range(null, 0.04, step_s) } as Control;
  const controls = SUB.controls.map((control) => (control.name === 'delay' ? delay : control));
  const room = subRoomWith({ crossover: crossover(80) });
  return {
    ...room,
    speakers: room.speakers.map((speaker) =>
      speaker.id === 'left' ? { ...speaker, at: point(1.31, 2.27, 1.2) } : speaker,
    ),
    subwoofers: room.subwoofers.map((sub) => ({ ...sub, gear: { ...SUB, controls } })),
    settings: [
      settings('sub', {
        crossover: crossover(80),
        polarity: { kind: 'choice', choice: 'normal', told: 'normal' },
      }),
    ],
  };
}

const SOURCES = ['left', 'right', 'sub'];

function dialled(room: Room): { readonly before: Setup; readonly after: Setup } {
  const before = worked(room);
  const edits = before.advice
    .filter(({ control }) => control === 'delay')
    .map(({ path, dialIn }) => ({ do: 'set' as const, path, value: dialIn }));
  return { before, after: worked(dialledIn(room, edits)) };
}

function residual_s(setup: Setup, source: string): number {
  const own = setup.advice.find(({ delay }) => delay?.targets.includes(source));
  return Math.abs(own?.residual_s ?? 0);
}

/** A device that takes distances works all delays out from them: a hair's breadth for what it rounds besides. */
const HAIR_S = 2e-9;

describe('dialling in what is suggested', () => {
  test.each(TELLINGS)(
    '%s: each arrival is off by its stated residual, no more',
    (_, telling, step_s) => {
      const { before, after } = dialled(roomTold(telling, step_s));
      const least_s = Math.max(
        ...SOURCES.map((id) => arrivalOf(after, 'mix', id).arrival_s ?? NaN),
      );
      const stated_s = Math.max(...SOURCES.map((id) => residual_s(before, id)));
      for (const id of SOURCES) {
        const arrival_s = arrivalOf(after, 'mix', id).arrival_s ?? NaN;
        expect(least_s - arrival_s).toBeLessThanOrEqual(residual_s(before, id) + stated_s + HAIR_S);
        expect(residual_s(before, id)).toBeLessThanOrEqual(step_s + HAIR_S);
      }
    },
  );

  test('whichever way it is told, sources stand to each other alike, to within the residuals', () => {
    const all = TELLINGS.map(([, telling, step_s]) => dialled(roomTold(telling, step_s)));
    const against = (setup: Setup, id: string) =>
      (arrivalOf(setup, 'mix', id).arrival_s ?? NaN) -
      (arrivalOf(setup, 'mix', 'sub').arrival_s ?? NaN);
    for (const { before, after } of all)
      for (const other of all)
        for (const id of ['left', 'right']) {
          const most_s = [before, other.before].reduce(
            (sum, setup) => sum + residual_s(setup, id) + residual_s(setup, 'sub'),
            HAIR_S,
          );
          expect(Math.abs(against(after, id) - against(other.after, id))).toBeLessThanOrEqual(
            most_s,
          );
        }
  });
});

test('a mirrored room has mirrored levels, and the same delays for its seats', () => {
  const flip = (at: Room['seats'][number]['at']) => at && { ...at, x_m: 5 - at.x_m };
  const peak_db = { frequency_hz: [63, 1000], value: [104, 110] };
  const gear = { ...MAIN, maxLevel: { distance_m: 1, space: 'full' as const, peak_db } };
  const base = subRoom();
  const room: Room = {
    ...base,
    targets: { ...EMPTY_ROOM.targets, referenceLevel: { level_db: 79, weighting: 'C' } },
    seats: [
      ...base.seats,
      { ...base.seats[0], id: 'aside', isReference: false, role: null, at: point(3.1, 5, 1.2) },
    ],
    speakers: base.speakers.map((one, index) => ({
      ...one,
      gear,
      at: index === 0 ? point(1.2, 2, 1.2) : one.at,
    })),
    settings: [...base.settings, settings('left', { level: decibels(-2) })],
  };
  const [left, right] = room.speakers;
  const mirrored: Room = {
    ...room,
    seats: room.seats.map((seat) => ({ ...seat, at: flip(seat.at) })),
    speakers: room.speakers.map((one) => ({
      ...one,
      at: flip((one.id === 'left' ? right : left)?.at ?? null),
    })),
    subwoofers: room.subwoofers.map((sub) => ({ ...sub, at: flip(sub.at) })),
    settings: [...base.settings, settings('right', { level: decibels(-2) })],
  };
  const [one, other] = [workedAfresh(room), workedAfresh(mirrored)];
  expectNear(
    one.levels.pairs?.[0]?.difference_db ?? NaN,
    -(other.levels.pairs?.[0]?.difference_db ?? NaN),
    1e-9,
    'dB',
  );
  const worst = (setup: Setup, id: string) =>
    setup.levels.reach?.find(({ source }) => source === id)?.worst?.headroom_db ?? NaN;
  expectNear(worst(one, 'left'), worst(other, 'right'), 1e-9, 'dB');
  expectNear(
    one.seatDelays?.[0]?.spread_s ?? NaN,
    other.seatDelays?.[0]?.spread_s ?? NaN,
    1e-9,
    's',
  );
  expect(Math.abs(one.levels.pairs?.[0]?.difference_db ?? 0)).toBeGreaterThan(1);
});
