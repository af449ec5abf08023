// How far off each figure of a take may be without anything being otherwise than planned: standard deviations.
//
// What the analysis itself leaves is told in its tests; the rest is where the microphone really stood and what no plan of a room knows.

/** A sharp peak is found to ±0.02 ms, a bass source's slope to ±0.5 ms (two deviations). @source the project's own tests of its analysis */
export const PEAK_S = 1e-5;
export const SLOPE_S = 2.5e-4;
/** A microphone on a stand, put where the file says by tape: common practice, no source. */
export const PLACE_M = 0.015;
/** Two settings of the same microphone and gain, and what early reflections leave of the diffuse level: common practice, no source. */
export const MID_DB = 0.5;
/** The best that a plan of a room does in a sixth of an octave of bass. @source the project's own: ±3 to 6 dB in lightweight rooms at most */
export const BAND_DB = 1.5;
/** Chance that a polarity that is told clearly is told wrongly: one in ten thousand, our own figure. */
export const WRONG_POLARITY_MISFIT: number = -2 * Math.log(1e-4);

/** Deviation of an arrival. */
export function arrivalError_s(by: 'peak' | 'slope' | null, speedOfSound_m_s: number): number {
  return Math.hypot(by === 'slope' ? SLOPE_S : PEAK_S, PLACE_M / speedOfSound_m_s);
}
