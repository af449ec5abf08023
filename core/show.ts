// Figures in words: SI numbers as the file's own habit writes them. The one way out of SI for messages, hints and sheets.

import type { Habits } from '../schema/model/quantities.ts';

/** Each takes SI and gives text with its unit. */
export interface Show {
  /** `2.31 m`, `2310 mm`, `7 ft 6 7/8 in`, with about a centimetre's sense. */
  readonly length: (length_m: number) => string;
  /** For differences and tolerances: millimetres or inches. */
  readonly smallLength: (length_m: number) => string;
  /** `6.79 ms`. */
  readonly time: (time_s: number) => string;
  /** `75 Hz`, `1.25 kHz`. */
  readonly frequency: (frequency_hz: number) => string;
  /** `30.4°`. */
  readonly angle: (angle_rad: number) => string;
  /** `-3.5 dB` with a real minus sign left to typography: a hyphen, as the file writes it. */
  readonly level: (level_db: number) => string;
  readonly temperature: (temperature_k: number) => string;
  readonly mass: (mass_kg: number) => string;
  readonly share: (share: number) => string;
  readonly speed: (speed_m_s: number) => string;
  readonly volume: (volume_m3: number) => string;
  readonly area: (area_m2: number) => string;
  readonly decayTime: (decayTime_s: number) => string;
}

/** The words for a file with these habits. Never `-0`; digits are fixed for each unit so that text does not jump. */
export function showFor(habits: Habits): Show {
  const metric = habits.length !== 'feet';
  const length =
    habits.length === 'millimetre'
      ? (length_m: number) => `${fixed(length_m * 1000, 0)} mm`
      : habits.length === 'feet'
        ? feetAndInches
        : (length_m: number) => `${fixed(length_m, 2)} m`;
  return {
    length,
    smallLength: metric
      ? (length_m) => `${fixed(length_m * 1000, 0)} mm`
      : (length_m) => `${fixed(length_m / METRES_AN_INCH, 1)} in`,
    time: (time_s) => `${fixed(time_s * 1000, 2)} ms`,
    frequency,
    angle: (angle_rad) => `${fixed((angle_rad * 180) / Math.PI, 1)}°`,
    level: (level_db) => `${fixed(level_db, 1)} dB`,
    temperature:
      habits.temperature === 'fahrenheit'
        ? (temperature_k) => `${fixed(((temperature_k - 273.15) * 9) / 5 + 32, 1)} °F`
        : (temperature_k) => `${fixed(temperature_k - 273.15, 1)} °C`,
    mass:
      habits.mass === 'pound'
        ? (mass_kg) => `${fixed(mass_kg / KILOGRAMS_A_POUND, 0)} lb`
        : (mass_kg) => `${fixed(mass_kg, 0)} kg`,
    share: (share) => `${fixed(share * 100, 0)} %`,
    speed: metric
      ? (speed_m_s) => `${fixed(speed_m_s, 1)} m/s`
      : (speed_m_s) => `${fixed(speed_m_s / METRES_A_FOOT, 0)} ft/s`,
    volume: metric
      ? (volume_m3) => `${fixed(volume_m3, 1)} m³`
      : (volume_m3) => `${fixed(volume_m3 / METRES_A_FOOT ** 3, 0)} ft³`,
    area: metric
      ? (area_m2) => `${fixed(area_m2, 1)} m²`
      : (area_m2) => `${fixed(area_m2 / METRES_A_FOOT ** 2, 0)} ft²`,
    decayTime: (decayTime_s) => `${fixed(decayTime_s, 2)} s`,
  };
}

/** Exact by definition (international yard and pound agreement, 1959). */
const METRES_A_FOOT = 0.3048;
const METRES_AN_INCH = 0.0254;
const KILOGRAMS_A_POUND = 0.45359237;

/** Eighths of an inch: about 3 mm, finer than anyone sets up a loudspeaker. */
function feetAndInches(length_m: number): string {
  const eighths = Math.round(Math.abs(length_m) / (METRES_AN_INCH / 8));
  const feet = Math.floor(eighths / 96);
  const inches = Math.floor((eighths % 96) / 8);
  const rest = eighths % 8;
  const sign = length_m < 0 && 0 < eighths ? '-' : '';
  const divisor = rest % 4 === 0 ? 4 : rest % 2 === 0 ? 2 : 1;
  const fraction = rest === 0 ? '' : `${rest / divisor}/${8 / divisor}`;
  const inchText = [0 < inches || fraction === '' ? String(inches) : '', fraction]
    .filter(Boolean)
    .join(' ');
  return `${sign}${0 < feet ? `${feet} ft ` : ''}${inchText} in`;
}

function frequency(frequency_hz: number): string {
  if (1000 <= frequency_hz) return `${trimmed(frequency_hz / 1000, 2)} kHz`;
  return `${frequency_hz < 100 ? trimmed(frequency_hz, 1) : fixed(frequency_hz, 0)} Hz`;
}

function fixed(value: number, digits: number): string {
  const text = value.toFixed(digits);
  return Number(text) === 0 ? (0).toFixed(digits) : text;
}

/** At most `digits` decimals, none that say nothing. */
function trimmed(value: number, digits: number): string {
  return String(Number(value.toFixed(digits)));
}
