// What air takes from a tone on its way: decibels per metre, and the same as the coefficient m of reverberation formulas.

import type { AirState } from './air.ts';
import { notNegative, positive } from './guard.ts';

/**
 * Pure-tone attenuation by air.
 *
 * @param state temperature, humidity and pressure count; carbon dioxide does not
 * @param frequency_hz >= 0; for a band use its exact mid frequency, not the nominal one
 * @returns dB/m; about ±10 % for −20…50 °C and 0.05–5 % water
 * @throws RangeError on a temperature or pressure that is not > 0, or a negative frequency
 * @source ISO 9613-1:1993, Eq. (3)–(5) and Annex B
 */
export function airAbsorption_db_m(state: AirState, frequency_hz: number): number {
  const f = notNegative('frequency_hz', frequency_hz);
  const T = positive('temperature_k', state.temperature_k);
  const pr = positive('pressure_pa', state.pressure_pa) / 101_325;
  const Tr = T / 293.15;
  const h = waterPercent(state);
  // relaxation frequencies of oxygen (3) and nitrogen (4)
  const frO = pr * (24 + (4.04e4 * h * (0.02 + h)) / (0.391 + h));
  const frN = pr * Tr ** -0.5 * (9 + 280 * h * Math.exp(-4.17 * (Tr ** (-1 / 3) - 1)));
  const classical = (1.84e-11 * Tr ** 0.5) / pr;
  const oxygen = (0.01275 * Math.exp(-2239.1 / T)) / (frO + (f * f) / frO);
  const nitrogen = (0.1068 * Math.exp(-3352 / T)) / (frN + (f * f) / frN);
  return 8.686 * f * f * (classical + Tr ** -2.5 * (oxygen + nitrogen)); // (5)
}

/**
 * The same loss as energy per metre, the `m` in 4mV of Sabine's and Eyring's formulas.
 *
 * @returns 1/m
 * @source 10 lg e = 4.343 dB
 */
export function airEnergyLoss_per_m(state: AirState, frequency_hz: number): number {
  return airAbsorption_db_m(state, frequency_hz) / (10 * Math.LOG10E);
}

/** Molar concentration of water vapour in percent. @source ISO 9613-1:1993 Annex B */
function waterPercent(state: AirState): number {
  const C = -6.8346 * (273.16 / state.temperature_k) ** 1.261 + 4.6151;
  const pr = state.pressure_pa / 101_325;
  return (state.relativeHumidity_ratio * 100 * 10 ** C) / pr;
}
