// Any room at all: parts and rules never throw, never give a number that is none, and always give the same for the same.

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { cautionsPart } from '../../core/parts/cautions.ts';
import { runRules } from '../../core/rules/run.ts';
import { showFor } from '../../core/show.ts';
import type { PlanShape, Room, Space } from '../../schema/model/room.ts';
import { geometrySetup } from '../support/findingsOf.ts';
import { box, EMPTY_ROOM, roomWith, seat, spaceWith, speaker } from '../support/rooms.ts';

/** Round metres and awkward ones, on walls, outside, in one another. */
const metres = fc.oneof(
  fc.constantFrom(0, 1, 1.2, 2.5, 5),
  fc.double({ min: -3, max: 12, noNaN: true }),
);
const extent = fc.oneof(
  fc.constantFrom(0, 1e-9, 2.5, 5, 60),
  fc.double({ min: -1, max: 30, noNaN: true }),
);
const place = fc.option(fc.record({ x_m: metres, y_m: metres, z_m: metres }), { nil: null });
const span = fc.option(fc.tuple(metres, metres), { nil: null });
const channel = fc.option(
  fc.constantFrom('L', 'R', 'C', 'Ls', 'Rs', 'LFE', 'M+030', 'U+135', 'Ltf', 'nonsense', ''),
  { nil: null },
);
const spectrum = fc.option(
  fc.record({
    frequency_hz: fc.constant([63, 125, 1000]),
    value: fc.array(fc.double({ min: -1, max: 3, noNaN: true }), { maxLength: 3 }),
  }),
  { nil: null },
);

const planShape: fc.Arbitrary<PlanShape> = fc.record({
  kind: fc.constant('plan' as const),
  walls: fc.array(
    fc.record({ name: fc.constantFrom('front', 'a', 'b'), x_m: metres, y_m: metres }),
    {
      maxLength: 6,
    },
  ),
  ceiling: fc.option(
    fc.record({
      height_m: metres,
      slopeX: fc.double({ min: -1, max: 1, noNaN: true }),
      slopeY: fc.constantFrom(0, 0.2),
    }),
    { nil: null },
  ),
});

const covering = fc.oneof(
  fc.constantFrom('carpet_on_concrete', 'no_such').map((material) => ({
    kind: 'material' as const,
    material,
  })),
  fc.double({ min: 0, max: 1.2, noNaN: true }).map((value) => ({
    kind: 'absorption' as const,
    absorption: { frequency_hz: [125], value: [value] },
  })),
  fc.double({ min: 0, max: 3, noNaN: true }).map((real) => ({
    kind: 'admittance' as const,
    real,
    imaginary: 0.3,
  })),
  fc.constant({ kind: 'shares' as const, shares: [] }),
);

const space: fc.Arbitrary<Space> = fc
  .record({
    shape: fc.oneof(
      fc.tuple(extent, extent, extent).map(([w, d, h]) => box(w, d, h)),
      planShape,
      fc.constant(null),
    ),
    surfaces: fc.array(
      fc.record({
        name: fc.constantFrom('floor', 'ceiling', 'front', 'back', 'left', 'right'),
        covering,
      }),
      { maxLength: 7 },
    ),
    decayTime_s: spectrum,
    backgroundNoise: fc.constantFrom(null, { nr: 20 }, { nr: null }),
    fixtures: fc.array(
      fc.oneof(
        fc.record({
          id: fc.constantFrom('desk', 'door'),
          kind: fc.constantFrom('obstacle' as const, 'keep_clear' as const),
          x_m: span,
          y_m: span,
          z_m: span,
          because: fc.constantFrom(null, 'way out'),
        }),
        fc.record({
          id: fc.constant('panel'),
          kind: fc.constant('panel' as const),
          wall: fc.constantFrom('left', 'a', 'none'),
          along_m: span,
          z_m: span,
          covering: fc.option(covering, { nil: null }),
        }),
      ),
      { maxLength: 3 },
    ),
  })
  .map(spaceWith);

const flush = fc.constantFrom(null, null, 'front', 'ceiling', 'nowhere');
const anyRoom: fc.Arbitrary<Room> = fc
  .record({
    space,
    seats: fc
      .array(place, { maxLength: 3 })
      .map((all) =>
        all.map((at, index) => seat(`seat_${index}`, at, { isReference: index === 1 })),
      ),
    speakers: fc
      .array(fc.tuple(channel, place, flush), { maxLength: 5 })
      .map((all) => all.map(([name, at, flushIn], i) => speaker(`s_${i}`, name, at, { flushIn }))),
    subwoofers: fc
      .array(place, { maxLength: 2 })
      .map((all) => all.map((at, index) => speaker(`sub_${index}`, null, at))),
    targets: fc
      .constantFrom(null, '0+2+0', '0+5+0', '4+7+0', '9+10+3', '5.1')
      .map((layout) => ({ ...EMPTY_ROOM.targets, layout })),
    air: fc
      .constantFrom(null, 0, 250, 293.15, 400)
      .map((temperature_k) => ({ ...EMPTY_ROOM.air, temperature_k })),
    habits: fc.constantFrom('metre', 'millimetre', 'feet').map((length) => ({
      length: length as 'metre',
      temperature: 'celsius' as const,
      mass: 'kilogram' as const,
    })),
  })
  .map(roomWith);

test('no throw, no NaN, no infinity, the same twice; messages are whole', () => {
  fc.assert(
    fc.property(anyRoom, (room) => {
      const setup = geometrySetup(room);
      const show = showFor(room.habits);
      const findings = runRules(setup, show, { today: '2026-11-25' });
      expect(numbersThatAreNone({ ...setup, findings })).toEqual([]);
      for (const { message } of findings) {
        expect(message).not.toMatch(/NaN|Infinity|undefined|null|-0\b(?!\.)/);
        expect(message.length).toBeGreaterThan(8);
      }
      expect(runRules(geometrySetup(room), show, { today: '2026-11-25' })).toEqual(findings);
      expect(cautionsPart(room).every((caution) => 20 < caution.length)).toBe(true);
    }),
    { numRuns: 300 },
  );
});

/** Paths of numbers that JSON would turn into null. */
function numbersThatAreNone(value: unknown, path = ''): readonly string[] {
  if (typeof value === 'number') return Number.isFinite(value) ? [] : [path];
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, below]) =>
    path === '' && key === 'room' ? [] : numbersThatAreNone(below, `${path}.${key}`),
  );
}
