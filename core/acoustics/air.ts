// The air of a room: speed of sound, density and water content from temperature, humidity, pressure and carbon dioxide.
//
// Both formulas are those of IEC 61094-2 Annex F, whose table of worked values they reproduce to the last digit.

import { positive } from './guard.ts';

/** What is known of the air. */
export interface AirState {
  readonly temperature_k: number;
  /** relative humidity, 0 … 1 */
  readonly relativeHumidity_ratio: number;
  readonly pressure_pa: number;
  /** mole fraction of carbon dioxide, 0.0004 outdoors */
  readonly co2_ratio: number;
}

/** A quantity that lies outside the range in which the formula was checked. */
export type AirLimit = 'temperature' | 'humidity' | 'pressure' | 'co2';

/** What follows from it. */
export interface Air extends AirState {
  readonly speedOfSound_m_s: number;
  readonly density_kg_m3: number;
  /** characteristic impedance ρc, of which a wall's specific admittance is the multiple */
  readonly impedance_pa_s_m: number;
  /** mole fraction of water */
  readonly water_ratio: number;
  /** change of the speed of sound with temperature, other things equal */
  readonly speedSlope_m_s_k: number;
  /** empty inside the formula's range; outside it the figures go on, less surely */
  readonly outside: readonly AirLimit[];
}

/** Air of an ordinary room at sea level: 20 °C, 50 %, 101 325 Pa, 400 ppm. */
export const ORDINARY_AIR: AirState = {
  temperature_k: 293.15,
  relativeHumidity_ratio: 0.5,
  pressure_pa: 101_325,
  co2_ratio: 0.0004,
};

/** Range of the speed formula. @source Cramer 1993; 0–30 °C, 75–102 kPa, water to 0.06, CO₂ to 0.01 */
export const AIR_RANGE = {
  temperature_k: [273.15, 303.15],
  relativeHumidity_ratio: [0, 1],
  pressure_pa: [75_000, 102_000],
  water_ratio: [0, 0.06],
  co2_ratio: [0, 0.01],
} as const;

/**
 * All figures of the air at once.
 *
 * @param state spread over `ORDINARY_AIR` what is not known
 * @throws RangeError on a temperature or pressure that is not > 0
 */
export function air(state: AirState): Air {
  const speed_m_s = speedOfSound_m_s(state);
  const density = density_kg_m3(state);
  return {
    ...state,
    speedOfSound_m_s: speed_m_s,
    density_kg_m3: density,
    impedance_pa_s_m: density * speed_m_s,
    water_ratio: water_ratio(state),
    speedSlope_m_s_k: speedSlope_m_s_k(state),
    outside: airLimits(state),
  };
}

/**
 * Speed of sound at zero frequency.
 *
 * @returns m/s; standard uncertainty about 300 ppm inside `AIR_RANGE`
 * @throws RangeError on a temperature or pressure that is not > 0
 * @source Cramer, J. Acoust. Soc. Am. 93 (1993) 2510, Eq. (15); IEC 61094-2:2009 Annex F
 */
export function speedOfSound_m_s(state: AirState): number {
  const t = celsius(state);
  const xw = water_ratio(state);
  const xc = state.co2_ratio;
  const p = state.pressure_pa;
  return (
    331.5024 +
    0.603055 * t -
    0.000528 * t * t +
    (51.471935 + 0.1495874 * t - 0.000782 * t * t) * xw +
    (-1.82e-7 + 3.73e-8 * t - 2.93e-10 * t * t) * p +
    (-85.20931 - 0.228525 * t + 5.91e-5 * t * t) * xc -
    2.835149 * xw * xw -
    2.15e-13 * p * p +
    29.179762 * xc * xc +
    0.000486 * xw * p * xc
  );
}

/**
 * Density of moist air.
 *
 * @returns kg/m³, relative uncertainty about 22 ppm
 * @throws RangeError on a temperature or pressure that is not > 0
 * @source CIPM-2007 (Picard et al., Metrologia 45 (2008) 149), as in IEC 61094-2:2009 Annex F
 */
export function density_kg_m3(state: AirState): number {
  const T = state.temperature_k;
  const xw = water_ratio(state);
  const molar = (3.48374 + 1.4446 * (state.co2_ratio - 0.0004)) * 1e-3;
  return (molar * state.pressure_pa * (1 - 0.378 * xw)) / (compressibility_ratio(state, xw) * T);
}

/**
 * Mole fraction of water vapour.
 *
 * @source Davis 1992 and CIPM-2007: saturation pressure and enhancement factor; IEC 61094-2:2009 Annex F
 */
export function water_ratio(state: AirState): number {
  const T = positive('temperature_k', state.temperature_k);
  const p = positive('pressure_pa', state.pressure_pa);
  const t = celsius(state);
  const saturation_pa = Math.exp(
    1.2378847e-5 * T * T - 1.9121316e-2 * T + 33.93711047 - 6343.1645 / T,
  );
  const enhancement = 1.00062 + 3.14e-8 * p + 5.6e-7 * t * t;
  return (state.relativeHumidity_ratio * enhancement * saturation_pa) / p;
}

/**
 * How much faster sound gets with each kelvin, relative humidity held: about 0.6 m/s per kelvin.
 *
 * @returns m/s per K, by a central difference of ±0.01 K
 */
export function speedSlope_m_s_k(state: AirState): number {
  const step_k = 0.01;
  const at = (change_k: number) =>
    speedOfSound_m_s({ ...state, temperature_k: state.temperature_k + change_k });
  return (at(step_k) - at(-step_k)) / (2 * step_k);
}

/** Which quantities lie outside `AIR_RANGE`. */
export function airLimits(state: AirState): readonly AirLimit[] {
  const outside = (value: number, [low, high]: readonly [number, number]) =>
    !(low <= value && value <= high);
  const limits: AirLimit[] = [];
  if (outside(state.temperature_k, AIR_RANGE.temperature_k)) limits.push('temperature');
  if (
    outside(state.relativeHumidity_ratio, AIR_RANGE.relativeHumidity_ratio) ||
    outside(water_ratio(state), AIR_RANGE.water_ratio)
  ) {
    limits.push('humidity');
  }
  if (outside(state.pressure_pa, AIR_RANGE.pressure_pa)) limits.push('pressure');
  if (outside(state.co2_ratio, AIR_RANGE.co2_ratio)) limits.push('co2');
  return limits;
}

function compressibility_ratio(state: AirState, xw: number): number {
  const t = celsius(state);
  const pT = state.pressure_pa / state.temperature_k;
  return (
    1 -
    pT *
      (1.58123e-6 -
        2.9331e-8 * t +
        1.1043e-10 * t * t +
        (5.707e-6 - 2.051e-8 * t) * xw +
        (1.9898e-4 - 2.376e-6 * t) * xw * xw) +
    pT * pT * (1.83e-11 - 7.65e-9 * xw * xw)
  );
}

function celsius({ temperature_k }: AirState): number {
  return temperature_k - 273.15;
}
