// Bonello's criterion for a small room: modes counted a third octave, never falling, with coincidences only in company.

import { type BoxMode, coincidences } from './boxModes.ts';
import { type FrequencyBand, thirdOctaves } from './thirdOctave.ts';

export interface BonelloBand extends FrequencyBand {
  readonly modeCount: number;
  /** fewer modes than the band below */
  readonly falls: boolean;
  /** modes of this band at the same frequency */
  readonly coincident: readonly (readonly BoxMode[])[];
  /** has coincident modes with too few others to hide them */
  readonly exposed: boolean;
}

export interface BonelloVerdict {
  readonly bands: readonly BonelloBand[];
  /** criterion (a): the count never falls */
  readonly rises: boolean;
  /** criterion (b): coincident modes only where at least five share the band */
  readonly covered: boolean;
  readonly passes: boolean;
}

/** Bands that Bonello counts. @source Bonello, J. Audio Eng. Soc. 29 (1981) 597: 10 to 200 Hz */
const FROM_HZ = 10;
const TO_HZ = 200;
/** @source same: a coincidence is tolerable in a band of five or more modes */
const COVER_COUNT = 5;

/**
 * Both of Bonello's criteria, and in which band each fails.
 *
 * @param modes of the room up to 225 Hz at least (upper edge of the 200 Hz band), ascending
 * @param coincidence_hz how near two modes are to count as one; 0 means exactly (the paper's double modes)
 * @returns bands ascending from 10 Hz to 200 Hz
 * @source Bonello, J. Audio Eng. Soc. 29 (1981) 597; Handbook for Sound Engineers §6.6
 */
export function bonello(modes: readonly BoxMode[], coincidence_hz: number): BonelloVerdict {
  const counted: BonelloBand[] = [];
  let below = 0;
  for (const band of thirdOctaves(FROM_HZ, TO_HZ)) {
    const inside = modes.filter(
      ({ frequency_hz }) => band.lower_hz <= frequency_hz && frequency_hz < band.upper_hz,
    );
    const coincident = coincidences(inside, coincidence_hz);
    const exposed = 0 < coincident.length && inside.length < COVER_COUNT;
    const falls = inside.length < below;
    counted.push({ ...band, modeCount: inside.length, falls, coincident, exposed });
    below = inside.length;
  }
  const rises = counted.every(({ falls }) => !falls);
  const covered = counted.every(({ exposed }) => !exposed);
  return { bands: counted, rises, covered, passes: rises && covered };
}
