// Rule measured/target: what is heard at the reference seat keeps to the target curve.

import { type WholeResponse, wholeResponses } from '../../measured/judgedTakes.ts';
import { type BandOff, outsideTarget, worstOf } from '../../measured/responseMask.ts';
import { thirdOctaveLevels } from '../../measured/thirdOctaveLevels.ts';
import { targetOn_db } from '../../search/targetCurve.ts';
import type { Show } from '../../show.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly whole: WholeResponse;
  readonly offs: readonly BandOff[];
  readonly worst: BandOff;
  readonly tolerance_db: number;
}

/** Where the file and its policy say nothing. @source ITU-R BS.1116, EBU Tech 3276 (from memory): ±3 dB */
const USUAL_DB = 3;
/** @source EBU Tech 3276 (from memory): judged from 50 Hz to 16 kHz */
const JUDGED_HZ = [50, 16_000] as const;
const LEAST_BANDS = 4;

export const measuredTarget: Rule = defineRule<Fact>({
  code: 'measured/target',
  severity: 'information',
  title: 'Measured response off its target',
  reason: 'What stands out at the seat is corrected in the mix, and then missing elsewhere.',
  advice: 'Look at placement and crossover first; then fit an equaliser to the take.',
  source:
    'the file’s target curve and the policy’s tolerance; ± 3 dB where it has none, ITU-R BS.1116 and EBU Tech 3276 (from memory)',

  *find(setup) {
    const { room, referenceSeat } = setup;
    const { curve } = room.targets;
    if (curve === null) return;
    const tolerance_db = room.policy.tolerances.response ?? USUAL_DB;
    for (const whole of wholeResponses(setup)) {
      if (whole.seat !== referenceSeat) continue;
      const levels = thirdOctaveLevels(whole.response, ...JUDGED_HZ);
      if (levels.length < LEAST_BANDS) continue;
      const target_db = (f_hz: number) => targetOn_db(curve, [f_hz])?.[0] ?? 0;
      const offs = outsideTarget(levels, target_db, tolerance_db);
      const worst = worstOf(offs);
      if (worst === undefined) continue;
      yield {
        path: whole.path,
        fact: { whole, offs, worst, tolerance_db },
        measured: { value: worst.off_db, unit: 'dB' },
        limit: { value: worst.limit_db, unit: 'dB' },
        related: [{ path: ['targets', 'curve'], message: 'the target' }],
      };
    }
  },

  message: ({ whole, offs, worst, tolerance_db }, show) =>
    `${whole.id}: ${bandsOff(offs, show)} off the target by more than ${show.level(tolerance_db)}; most at ${show.frequency(worst.band.nominal_hz)}, ${signed(worst.off_db, show)}`,
});

/** `3 third octaves (63 Hz, 80 Hz, 100 Hz)`. */
export function bandsOff(offs: readonly BandOff[], show: Show): string {
  const named = offs.slice(0, 4).map(({ band }) => show.frequency(band.nominal_hz));
  const more = 4 < offs.length ? ' and more' : '';
  return `${offs.length === 1 ? 'one third octave' : `${offs.length} third octaves`} (${named.join(', ')}${more})`;
}

export function signed(level_db: number, show: Show): string {
  return `${0 < level_db ? '+' : ''}${show.level(level_db)}`;
}
