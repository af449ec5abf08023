// Rule space/noise: continuous noise keeps to the noise rating of the listening-room standards.

import { defineRule, type Rule } from '../rule.ts';

/** @source ITU-R BS.1116-3, EBU Tech 3276 (from memory): NR 10 wanted, never above NR 15 */
const MOST_NR = 15;

export const spaceNoise: Rule = defineRule<{ readonly nr: number }>({
  code: 'space/noise',
  severity: 'warning',
  title: 'Background noise',
  reason: 'Noise masks reverberation tails and low passages, and people then turn up.',
  advice: 'Find the band that decides the rating; look at ventilation and equipment first.',
  source: 'ITU-R BS.1116-3 and EBU Tech 3276: NR 10 preferred, never above NR 15 (from memory)',

  *find({ room }) {
    const nr = room.space.backgroundNoise?.nr ?? null;
    if (nr === null || nr <= MOST_NR) return;
    yield {
      path: ['space', 'background_noise', 'nr'],
      fact: { nr },
      measured: { value: nr, unit: 'NR' },
      limit: { value: MOST_NR, unit: 'NR' },
    };
  },

  message: ({ nr }) => `Background noise of NR ${nr}, at most NR ${MOST_NR} is asked for`,
});
