// Rule measured/room-response: the response at the reference seat keeps within the listening-room standards' mask.

import { type WholeResponse, wholeResponses } from '../../measured/judgedTakes.ts';
import { type BandOff, outsideMask, worstOf } from '../../measured/responseMask.ts';
import { thirdOctaveLevels } from '../../measured/thirdOctaveLevels.ts';
import { defineRule, type Rule } from '../rule.ts';
import { bandsOff, signed } from './target.ts';

interface Fact {
  readonly whole: WholeResponse;
  readonly offs: readonly BandOff[];
  readonly worst: BandOff;
}

export const measuredRoomResponse: Rule = defineRule<Fact>({
  code: 'measured/room-response',
  severity: 'information',
  title: 'Room response outside the mask',
  reason: 'Rooms whose responses keep within one mask can be worked in by turns.',
  advice: 'Look at placement, crossover and absorption; then fit an equaliser to the take.',
  source:
    'operational room response curve, EBU Tech 3276 and ITU-R BS.1116 (from memory): third octaves, ± 3 dB from 50 Hz re the mean of 200 Hz to 4 kHz, the lower limit falling from 2 kHz to −6 dB at 16 kHz',

  *find(setup) {
    for (const whole of wholeResponses(setup)) {
      if (whole.seat !== setup.referenceSeat) continue;
      const offs = outsideMask(thirdOctaveLevels(whole.response, 50, 16_000));
      const worst = offs && worstOf(offs);
      if (!offs || !worst) continue;
      yield {
        path: whole.path,
        fact: { whole, offs, worst },
        measured: { value: worst.off_db, unit: 'dB' },
        limit: { value: worst.limit_db, unit: 'dB' },
      };
    }
  },

  message: ({ whole, offs, worst }, show) =>
    `${whole.id}: ${bandsOff(offs, show)} outside the mask; most at ${show.frequency(worst.band.nominal_hz)}, ${signed(worst.off_db, show)} where ${signed(worst.limit_db, show)} is allowed`,
});
