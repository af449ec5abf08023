// The mask of the listening-room standards for decay times by band.

/** Around the nominal time, seconds. @source EBU Tech 3276; ITU-R BS.1116-3 §8.2.3.1 (±0.05 s confirmed, the rest from memory) */
const MIDDLE_S = 0.05;
const RISE_AT_63_S = 0.3;
const TREBLE_S = 0.1;

/**
 * Least and most decay time that a band may have.
 *
 * @param nominal_s the nominal mean time for the room's volume
 * @param frequency_hz of the band
 * @param tolerance as a share of the nominal time in the middle bands, where a policy says so; null for the standard's ±0.05 s
 * @returns null outside 63 Hz to 8 kHz, where no limit is given
 */
export function decayMask_s(
  nominal_s: number,
  frequency_hz: number,
  tolerance: number | null,
): { readonly least_s: number; readonly most_s: number } | null {
  if (frequency_hz < 62 || 8100 < frequency_hz) return null; // bands by nominal or exact middle
  const middle_s = tolerance === null ? MIDDLE_S : tolerance * nominal_s;
  if (4100 < frequency_hz) {
    const treble_s = Math.max(TREBLE_S, middle_s);
    return { least_s: nominal_s - treble_s, most_s: nominal_s + treble_s };
  }
  const below = Math.min(1, Math.max(0, Math.log(200 / frequency_hz) / Math.log(200 / 63)));
  const rise_s = Math.max(0, RISE_AT_63_S - middle_s) * below;
  return { least_s: nominal_s - middle_s, most_s: nominal_s + middle_s + rise_s };
}
