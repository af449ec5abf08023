// Figures that only the sheet shows: volts and the levels that the trade writes for them, amperes, watts, phases, samples.

/** 0 dBu: the voltage of 1 mW in 600 Ω. */
const ZERO_DBU_V = Math.sqrt(0.6);

/** `+4.0 dBu (1.23 V)`. */
export function voltageText(voltage_v: number): string {
  const level_dbu = 20 * Math.log10(voltage_v / ZERO_DBU_V);
  return `${level_dbu.toFixed(1)} dBu (${voltage_v < 10 ? voltage_v.toFixed(2) : voltage_v.toFixed(1)} V)`;
}

export function currentText(current_a: number): string {
  return `${current_a < 10 ? current_a.toFixed(1) : current_a.toFixed(0)} A`;
}

export function powerText(power_w: number): string {
  return `${power_w.toFixed(0)} W`;
}

export function degrees(angle_rad: number): number {
  return (angle_rad * 180) / Math.PI;
}

/** Phases are never known to a tenth of a degree: whole ones, `24°`. */
export function phaseText(phase_rad: number): string {
  const text = degrees(phase_rad).toFixed(0);
  return `${text === '-0' ? '0' : text}°`;
}

export function slopeText(slope_db_oct: number): string {
  return `${slope_db_oct} dB/oct`;
}

/** What two speakers' arrivals differ by, in microseconds below a tenth of a millisecond. */
export function smallTimeText(time_s: number): string {
  const absolute_s = Math.abs(time_s);
  return absolute_s < 1e-4
    ? `${(absolute_s * 1e6).toFixed(0)} µs`
    : `${(absolute_s * 1e3).toFixed(2)} ms`;
}
