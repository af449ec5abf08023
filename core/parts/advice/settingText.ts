// Settings as text that may stand in the file: numbers with as many digits as the device's steps have, and their unit.

import { voltageTo_dbu } from '../../acoustics/levels.ts';

const METRES_AN_INCH = 0.0254;

/** `1.25 ms`. */
export function millisecondsText(time_s: number, step_s: number | null): string {
  return `${decimalText(time_s * 1000, step_s === null ? null : step_s * 1000)} ms`;
}

/** `60 samples`. */
export function samplesText(count: number): string {
  return `${decimalText(count, 1)} samples`;
}

/** `0.43 m`, or feet where the device's step is a whole number of inches or hundredths of a foot and not of millimetres. */
export function lengthText(length_m: number, step_m: number | null): string {
  const isMetric = step_m === null || isWhole(step_m * 1000);
  const unit_m = isMetric
    ? 1
    : isWhole(step_m / METRES_AN_INCH)
      ? METRES_AN_INCH
      : 12 * METRES_AN_INCH;
  const unit = unit_m === 1 ? 'm' : unit_m === METRES_AN_INCH ? 'in' : 'ft';
  return `${decimalText(length_m / unit_m, step_m === null ? null : step_m / unit_m)} ${unit}`;
}

/** `80 Hz`. */
export function frequencyText(frequency_hz: number): string {
  return `${trimmed(frequency_hz, 3)} Hz`;
}

/** `{ frequency: 80 Hz, slope: 24 dB/oct }`. */
export function filterText(frequency_hz: number, slope_db_oct: number): string {
  return `{ frequency: ${frequencyText(frequency_hz)}, slope: ${slopeText(slope_db_oct)} }`;
}

/** `24 dB/oct`. */
export function slopeText(slope_db_oct: number): string {
  return `${trimmed(slope_db_oct, 2)} dB/oct`;
}

/** `-3.25 dB`. */
export function levelText(level_db: number, step_db: number | null): string {
  return `${decimalText(level_db, step_db)} dB`;
}

/** `18 dBu`; volts where the figure is no round one in dBu. */
export function voltageText(voltage_v: number): string {
  if (voltage_v <= 0) return `${trimmed(voltage_v, 3)} V`;
  const level_dbu = voltageTo_dbu(voltage_v);
  const isRound = Math.abs(level_dbu * 10 - Math.round(level_dbu * 10)) < 1e-3;
  return isRound ? `${trimmed(level_dbu, 1)} dBu` : `${trimmed(voltage_v, 3)} V`;
}

/** `90°`. */
export function angleText(angle_rad: number): string {
  return `${trimmed((angle_rad * 180) / Math.PI, 2)}°`;
}

/** A number with the digits of its step, or no more than it has where there are none; a bare 0 for nothing. */
function decimalText(value: number, step: number | null): string {
  if (step === null) return trimmed(value, 2);
  const text = value.toFixed(digitsOf(step));
  return Number(text) === 0 ? '0' : text;
}

function digitsOf(step: number): number {
  for (let digits = 0; digits < 4; digits++) if (isWhole(step * 10 ** digits)) return digits;
  return 4;
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-6 * Math.max(1, Math.abs(value));
}

function trimmed(value: number, digits: number): string {
  const text = String(Number(value.toFixed(digits)));
  return text === '-0' ? '0' : text;
}
