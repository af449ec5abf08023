// Measured candidate spots: what the takes say counts at the reference seat, whatever gain, delay and polarity they have in common.

import { describe, expect, test } from 'vitest';
import type { MeasuredFigures, MeasuredTake } from '../../core/measured/measuredFigures.ts';
import { placeSubwoofers, type RoomPlacement } from '../../core/search/roomPlacement.ts';
import { isSpotTake } from '../../core/search/spots.ts';
import { allAtOnce } from '../../core/search/transferMap.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { createWorkOut } from '../../core/workOut.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';

const OPTIONS = { today: null, defaultTemperature_k: 293.15 };
const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
if (heron === undefined) throw new Error('no heron');
const room = heron.room;
const SPOTS = [
  { x_m: 0.6, y_m: 2.2 },
  { x_m: 3.9, y_m: 2.7 },
  { x_m: 2.9, y_m: 5.4 },
] as const;
const SUB_HEIGHT_M = room.subwoofers[0]?.at?.z_m ?? 0;

/** What a microphone at the spots hears while the subwoofer stands at the seat: the room worked out so, nothing of the search in it. */
function takes(
  change: (f_hz: number, spot: number) => { readonly db: number; readonly s: number },
) {
  const ear = room.seats.find(({ isReference }) => isReference)?.at;
  const [seat] = room.seats;
  if (!ear || !seat) throw new Error('no seat');
  const swapped = createWorkOut()(
    {
      ...room,
      seats: SPOTS.map((at, i) => ({
        ...seat,
        id: `spot_${i}`,
        at: { ...at, z_m: SUB_HEIGHT_M },
        isReference: i === 0,
      })),
      subwoofers: room.subwoofers.map((sub) => ({ ...sub, at: ear })),
    },
    OPTIONS,
  );
  const { field } = withField(swapped, { today: null, envelope: false });
  return SPOTS.map((at, index): MeasuredTake => {
    const own = field?.seats[index]?.sources.find(({ source }) => source === 'sub');
    const frequency_hz = field?.frequency_hz ?? [];
    return {
      take: `spot_${index}`,
      path: ['sessions', 'spots', 'takes', `spot_${index}`],
      drive: 'L',
      sounding: ['sub'],
      seat: null,
      at: { ...at, z_m: 0.3 },
      ...EMPTY_TAKE,
      kind: 'text',
      response: {
        frequency_hz,
        level_db: (own?.level_db ?? []).map(
          (one, i) => one + change(frequency_hz[i] ?? 0, index).db,
        ),
        phase_rad: (own?.phase_rad ?? []).map((one, i) => {
          const f_hz = frequency_hz[i] ?? 0;
          return one + Math.PI - 2 * Math.PI * f_hz * change(f_hz, index).s;
        }),
        phaseFrom: 'playing',
        smoothing: null,
      },
    };
  });
}

function found(measured: readonly MeasuredTake[]): RoomPlacement {
  const session = { session: 'spots', path: [], date: null, takes: measured, averages: [] };
  const figures: MeasuredFigures = { sessions: [session], notes: [] };
  const setup: Setup = { ...(heron as Setup), measured: 0 < measured.length ? figures : null };
  return allAtOnce(
    placeSubwoofers(setup, {
      subs: ['sub'],
      keepSettings: true,
      // No place of the grid is within reach: the spots alone are left.
      cables: [{ from: { x_m: 0, y_m: 0 }, length_m: 0.01 }],
    }),
  );
}

/** Level of the first channel at the reference seat with the sub at a spot, by frequency. */
function levelsAt(placement: RoomPlacement, spot: number): readonly number[] {
  const at = SPOTS[spot];
  const candidate = placement.candidates.find(({ positions: [one] }) =>
    one === undefined || at === undefined
      ? false
      : Math.hypot(one.x_m - at.x_m, one.y_m - at.y_m) < 0.03,
  );
  if (candidate === undefined) throw new Error(`spot ${spot} is no candidate`);
  expect(candidate.measured).toEqual([true]);
  const seat = placement.seats.indexOf(placement.referenceSeat ?? '');
  return [...(candidate.levels_db[seat] ?? [])];
}

test('takes that say what the model says change nothing, whatever gain, delay and polarity they share', () => {
  const plain = found(takes(() => ({ db: 0, s: 0 })));
  const shared = found(takes(() => ({ db: 17.3, s: 0.004 })));
  expect(plain.notes.map(({ message }) => message).join()).toContain(
    '3 of the places of sub were measured',
  );
  SPOTS.forEach((_, spot) => {
    const [one, other] = [levelsAt(plain, spot), levelsAt(shared, spot)];
    // Two ways to the same field, and nulls: 0.5 dB where the level is not a deep dip.
    const off = one.map((level, i) => Math.abs(level - (other[i] ?? 99)));
    expect(Math.max(...off)).toBeLessThan(0.5);
  });
});

test('the model is what is found without takes', () => {
  const measured = found(takes(() => ({ db: 0, s: 0 })));
  const at = measured.candidates.filter(({ measured: [one] }) => one);
  expect(at.length).toBeGreaterThan(0);
  for (const { positions, cost_db } of at) {
    const moved = createWorkOut()(
      { ...room, subwoofers: room.subwoofers.map((sub) => ({ ...sub, at: positions[0] ?? null })) },
      OPTIONS,
    );
    const { current } = allAtOnce(
      placeSubwoofers(moved, { subs: ['sub'], step_m: 1, keepSettings: true, candidateCount: 1 }),
    );
    expect(Math.abs((current?.cost_db ?? 99) - cost_db)).toBeLessThan(0.25);
  }
});

test('what a take shows beyond the model is heard there and nowhere else', () => {
  const bump = (f_hz: number, spot: number) =>
    spot === 1 && 40 <= f_hz && f_hz <= 50 ? { db: 9, s: 0 } : { db: 0, s: 0 };
  const [plain, bumped] = [found(takes(() => ({ db: 0, s: 0 }))), found(takes(bump))];
  const rise = (spot: number) => {
    const [one, other] = [levelsAt(plain, spot), levelsAt(bumped, spot)];
    const inside = plain.frequency_hz.flatMap((f_hz, i) =>
      42 <= f_hz && f_hz <= 48 ? [(other[i] ?? 0) - (one[i] ?? 0)] : [],
    );
    return inside.reduce((sum, value) => sum + value, 0) / inside.length;
  };
  // The gain that all spots share takes a little of it back.
  expect(rise(1)).toBeGreaterThan(6);
  expect(Math.abs(rise(0))).toBeLessThan(2);
  expect(Math.abs(rise(2))).toBeLessThan(2);
});

describe('which takes are of a candidate spot', () => {
  const at = { x_m: 0.6, y_m: 2.2, z_m: 0.3 };
  test.each([
    ['low down, one subwoofer alone', { sounding: ['sub'], seat: null, at }, true],
    ['at ear height', { sounding: ['sub'], seat: null, at: { ...at, z_m: 1.22 } }, false],
    ['at a seat', { sounding: ['sub'], seat: 'mix', at: null }, false],
    ['a loudspeaker', { sounding: ['left'], seat: null, at }, false],
    ['with the mains', { sounding: ['left', 'sub'], seat: null, at }, false],
    [
      'right before a seat',
      { sounding: ['sub'], seat: null, at: { ...at, ...room.seats[0]?.at, z_m: 0.3 } },
      false,
    ],
  ])('%s', (_, take, want) => {
    expect(isSpotTake(take, room)).toBe(want);
  });
});
