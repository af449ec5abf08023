// What a crossover costs: how far the mains' cones move, and how loud mains and subwoofer can be with it.

import type { MaxLevel } from '../../schema/model/gear.ts';
import type { CrossoverCost, CrossoverOutcome } from '../setup.ts';
import { showFor } from '../show.ts';
import { valueAt } from './coverings.ts';

const show = showFor({ length: 'metre', temperature: 'celsius', mass: 'kilogram' });

/** From here on a subwoofer is judged. Common practice, no source. */
const SUB_FROM_HZ = 31.5;
/** What the displacement is told against: a flat response at this frequency. */
const REFERENCE_HZ = 100;

/**
 * The cost of an outcome, from its curve.
 *
 * For the same pressure the air that a source has to move goes with 1/f² (far field of a small source), whether a cone or a port
 * moves it. Below the lowest figure of a data sheet that is also what limits it: 12 dB less for each octave.
 *
 * @source volume velocity p ∝ jωρQ/(4πr), so that volume displacement ∝ p/f²
 */
export function costOf(
  { curve, filter }: Pick<CrossoverOutcome, 'curve' | 'filter'>,
  main: MaxLevel | null,
  sub: MaxLevel | null,
): CrossoverCost {
  const displacements_db = curve.frequency_hz.map(
    (frequency_hz, i) => (curve.main_db[i] ?? 0) - 40 * Math.log10(frequency_hz / REFERENCE_HZ),
  );
  const to_hz = 2 * filter.frequency_hz * (1 + 1e-6);
  const mostFrom = (from_hz: number, level_db: readonly number[], most: MaxLevel | null) => {
    const left_db = curve.frequency_hz.flatMap((frequency_hz, i) => {
      if (frequency_hz < from_hz || to_hz < frequency_hz) return [];
      const peak_db = most === null ? null : peakAt_db(most, frequency_hz);
      return peak_db === null ? [] : [peak_db - (level_db[i] ?? 0)];
    });
    return left_db.length === 0 ? null : Math.min(...left_db);
  };
  return {
    displacement_db: Math.max(...displacements_db),
    mainMost_db: mostFrom(0, curve.main_db, main),
    // What lies lower the subwoofer plays whatever the crossover.
    subMost_db: mostFrom(SUB_FROM_HZ, curve.sub_db, sub),
  };
}

/** Peak at 1 m. */
function peakAt_db({ peak_db, distance_m }: MaxLevel, frequency_hz: number): number | null {
  const lowest_hz = peak_db.frequency_hz[0];
  const told_db = valueAt(peak_db, frequency_hz);
  if (lowest_hz === undefined || told_db === null || !(0 < distance_m)) return null;
  const below_db = 40 * Math.log10(Math.min(1, frequency_hz / lowest_hz));
  return told_db + 20 * Math.log10(distance_m) + below_db;
}

/** A difference that is worth a word. */
const WORTH_SAYING_DB = 1;

/** What a crossover costs or saves against another one, in a sentence for each that is worth it. */
export function costReasons(
  own: CrossoverCost,
  other: CrossoverCost,
  otherText: string,
): readonly string[] {
  const reasons: string[] = [];
  const moves_db = own.displacement_db - other.displacement_db;
  if (WORTH_SAYING_DB < Math.abs(moves_db)) {
    const times = 10 ** (moves_db / 20);
    reasons.push(
      `the mains move ${times.toFixed(1)} times the air that they move with ${otherText}: for the same level it goes with 1/f²`,
    );
  }
  for (const [name, mine_db, theirs_db] of [
    ['the mains', own.mainMost_db, other.mainMost_db],
    ['the subwoofer', own.subMost_db, other.subMost_db],
  ] as const) {
    if (mine_db === null || theirs_db === null) continue;
    const more_db = mine_db - theirs_db;
    if (Math.abs(more_db) <= WORTH_SAYING_DB) continue;
    reasons.push(
      `${name} can be played ${show.level(Math.abs(more_db))} ${0 < more_db ? 'louder' : 'less loud'} than with ${otherText}`,
    );
  }
  return reasons;
}
