// The room's air: given, assumed and stated; what cannot be used is replaced and told.

import { expect, test } from 'vitest';
import { airPart } from '../../../core/parts/air.ts';
import type { AirGiven } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { EMPTY_ROOM, roomWith } from '../../support/rooms.ts';

const DEFAULT_K = 293.15;

function airOf(given: Partial<AirGiven>) {
  return airPart(roomWith({ air: { ...EMPTY_ROOM.air, ...given } }), DEFAULT_K);
}

/** @source IEC 61094-2:2009 Table F.1, as printed */
const TABLE_F1 = [
  {
    temperature_k: 296.15,
    pressure_pa: 101_325,
    relativeHumidity: 0.5,
    c: 345.86652,
    rho: 1.1860848,
  },
  {
    temperature_k: 293.15,
    pressure_pa: 80_000,
    relativeHumidity: 0.65,
    c: 344.38267,
    rho: 0.9441589,
  },
] as const;

test.each(TABLE_F1)('$temperature_k K, $pressure_pa Pa', ({ c, rho, ...given }) => {
  const { air, notes } = airOf(given);
  expectNear(air.speedOfSound_m_s, c, 5e-6, 'm/s'); // half a unit of the last printed digit
  expectNear(air.density_kg_m3, rho, 5e-8, 'kg/m³');
  expect(air.assumed).toBe(false);
  expect(notes).toEqual([]);
});

test('without a temperature the default stands in, and a note says so', () => {
  const { air, notes } = airOf({});
  expect(air.assumed).toBe(true);
  expectNear(air.speedOfSound_m_s, 343.987, 0.001, 'm/s'); // Cramer at 20 °C, 50 %, 101 325 Pa
  expect(notes.map(({ message }) => message)).toEqual([
    'No temperature recorded: 20.0 °C is assumed',
  ]);
});

test('a stated speed of sound overrides, and nothing is assumed for it', () => {
  const { air, notes } = airOf({ speedOfSound_m_s: 343.2 });
  expect(air.speedOfSound_m_s).toBe(343.2);
  expect(air.assumed).toBe(false);
  expect(notes).toEqual([]);
});

test('five kelvin more are about three metres a second', () => {
  // Cramer's table at 50 %: 343.987 m/s at 20 °C, 347.127 m/s at 25 °C; the slope at 20 °C is a little less
  expectNear(airOf({ temperature_k: DEFAULT_K }).air.speedChangePer5K_m_s, 3.14, 0.02, 'm/s');
});

test.each([-5, 0, 5000, Number.NaN])('a temperature of %d K is replaced', (temperature_k) => {
  const { air, notes } = airOf({ temperature_k });
  expect(air.temperature_k).toBe(DEFAULT_K);
  expect(notes[0]?.path).toEqual(['space', 'air', 'temperature']);
});
