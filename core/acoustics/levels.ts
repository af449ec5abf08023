// Electrical and digital levels: dBu, dBV, volts, dBFS, and what a device's full scale is worth.

import { positive } from './guard.ts';

/** 0 dBu: 1 mW in 600 Ω. */
const DBU_REFERENCE_V = Math.sqrt(0.6);

/** RMS volts of a level in dBu; 0 dBu is 0.7746 V. */
export function dbuToVoltage_v(level_dbu: number): number {
  return DBU_REFERENCE_V * 10 ** (level_dbu / 20);
}

/** Level in dBu of RMS volts > 0. */
export function voltageTo_dbu(voltage_v: number): number {
  return 20 * Math.log10(positive('voltage_v', voltage_v) / DBU_REFERENCE_V);
}

/** RMS volts of a level in dBV; 0 dBV is 1 V. */
export function dbvToVoltage_v(level_dbv: number): number {
  return 10 ** (level_dbv / 20);
}

/** Level in dBV of RMS volts > 0. */
export function voltageTo_dbv(voltage_v: number): number {
  return 20 * Math.log10(positive('voltage_v', voltage_v));
}

/** dBV + 2.218 dB. */
export function dbvTo_dbu(level_dbv: number): number {
  return level_dbv - 20 * Math.log10(DBU_REFERENCE_V);
}

/** dBu − 2.218 dB. */
export function dbuTo_dbv(level_dbu: number): number {
  return level_dbu + 20 * Math.log10(DBU_REFERENCE_V);
}

/**
 * Analogue level of a digital one.
 *
 * @param level_dbfs re a full-scale sine (AES17: its RMS value is 0 dBFS)
 * @param fullScale_dbu what the converter puts out at full scale, e.g. 18 (EBU R 68) or 24 (SMPTE RP 155)
 */
export function dbfsTo_dbu(level_dbfs: number, fullScale_dbu: number): number {
  return level_dbfs + fullScale_dbu;
}

/** Digital level of an analogue one; the inverse of `dbfsTo_dbu`. */
export function dbuTo_dbfs(level_dbu: number, fullScale_dbu: number): number {
  return level_dbu - fullScale_dbu;
}

/**
 * What a full-scale output exceeds the next input's limit by.
 *
 * @returns dB; > 0 is the pad that is needed, <= 0 the headroom left
 */
export function overload_db(fullScale_dbu: number, inputLimit_dbu: number): number {
  return fullScale_dbu - inputLimit_dbu;
}

/** Peak of a sine of an RMS voltage. */
export function sinePeak_v(voltage_v: number): number {
  return Math.SQRT2 * voltage_v;
}

/** In-band gain of LFE replay against a main channel. @source ITU-R BS.775-3 Annex 7 */
export const LFE_GAIN_DB = 10;

/**
 * Worst case of bass management: full-scale correlated bass of several mains plus LFE in one subwoofer, re one main.
 *
 * @param mainCount channels whose bass is redirected, >= 0
 * @param withLfe whether the LFE channel, +10 dB, comes on top
 * @returns dB, 20 lg(n + 10^(10/20)); minus infinity for nothing at all
 */
export function bassSum_db(mainCount: number, withLfe: boolean): number {
  return 20 * Math.log10(mainCount + (withLfe ? 10 ** (LFE_GAIN_DB / 20) : 0));
}

/** Sound pressure level of an RMS pressure, re 20 µPa. */
export function pressureTo_dbspl(pressure_pa: number): number {
  return 20 * Math.log10(positive('pressure_pa', pressure_pa) / 20e-6);
}
