// What air does: limits of the formulas, effects of temperature, humidity and carbon dioxide, and refusals.
import { describe, expect, test } from 'vitest';
import {
  type AirState,
  air,
  airLimits,
  ORDINARY_AIR,
  speedOfSound_m_s,
} from '../../core/acoustics/air.ts';
import { airAbsorption_db_m, airEnergyLoss_per_m } from '../../core/acoustics/airAbsorption.ts';
import { expectNear } from '../support/expectNear.ts';

function with_(change: Partial<AirState>): AirState {
  return { ...ORDINARY_AIR, ...change };
}

describe('sensitivities (Cramer 1993, worked by another program)', () => {
  test('0.6 m/s a kelvin at 20 °C', () => {
    expectNear(air(ORDINARY_AIR).speedSlope_m_s_k, 0.6, 0.05, 'm/s/K');
  });
  test('humidity from 0 to 100 % adds 1.26 m/s at 20 °C', () => {
    const dry = speedOfSound_m_s(with_({ relativeHumidity_ratio: 0 }));
    const wet = speedOfSound_m_s(with_({ relativeHumidity_ratio: 1 }));
    expectNear(wet - dry, 1.26, 0.01, 'm/s');
  });
  test('carbon dioxide from 400 to 1000 ppm takes 0.05 m/s', () => {
    const stale = speedOfSound_m_s(with_({ co2_ratio: 0.001 }));
    expectNear(speedOfSound_m_s(ORDINARY_AIR) - stale, 0.05, 0.005, 'm/s');
  });
});

test('characteristic impedance at 20 °C, 50 % is 412.5 Pa·s/m (textbooks: 413)', () => {
  expectNear(air(ORDINARY_AIR).impedance_pa_s_m, 412.5, 0.1, 'Pa·s/m');
});

describe('range of the formula (Cramer 1993: 0–30 °C, 75–102 kPa, CO2 to 1 %)', () => {
  test.each([
    { change: {}, limits: [] },
    { change: { temperature_k: 303.15 }, limits: [] },
    { change: { temperature_k: 303.16 }, limits: ['temperature'] },
    { change: { temperature_k: 273 }, limits: ['temperature'] },
    { change: { relativeHumidity_ratio: 1.01 }, limits: ['humidity'] },
    { change: { pressure_pa: 70_000 }, limits: ['pressure'] },
    { change: { co2_ratio: 0.02 }, limits: ['co2'] },
    {
      change: { temperature_k: 320, relativeHumidity_ratio: 1 },
      limits: ['temperature', 'humidity'],
    },
  ])('$change', ({ change, limits }) => {
    expect(airLimits(with_(change))).toEqual(limits);
  });
});

test('energy loss is the level in dB over 4.343', () => {
  const loss_db_m = airAbsorption_db_m(ORDINARY_AIR, 4000);
  expectNear(airEnergyLoss_per_m(ORDINARY_AIR, 4000), loss_db_m / 4.342945, 1e-9, '1/m');
});

test('carbon dioxide does not count in absorption, 0 Hz is not absorbed', () => {
  const stale = airAbsorption_db_m(with_({ co2_ratio: 0.01 }), 1000);
  expect(stale).toBe(airAbsorption_db_m(ORDINARY_AIR, 1000));
  expect(airAbsorption_db_m(ORDINARY_AIR, 0)).toBe(0);
});

test('a state that cannot be is refused', () => {
  expect(() => air(with_({ temperature_k: -5 }))).toThrow('temperature_k must be > 0, got -5');
  expect(() => air(with_({ pressure_pa: 0 }))).toThrow('pressure_pa must be > 0');
  expect(() => airAbsorption_db_m(ORDINARY_AIR, Number.NaN)).toThrow('frequency_hz');
});
