// Rule levels/sub-headroom: each subwoofer can make the peaks of one channel's bass, and of the LFE, in every third octave.

import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly subs: readonly string[];
  readonly seat: string;
  readonly isLfe: boolean;
  readonly short_db: number;
  readonly frequency_hz: number;
  readonly wanted_db: number;
  readonly bandCount: number;
}

/** Half of the last digit shown. */
const ROUNDING_DB = 0.05;
/** A quarter of the power: heard as strain. Common practice, no source. */
const SEVERE_DB = 6;

export const levelsSubHeadroom: Rule = defineRule<Fact>({
  code: 'levels/sub-headroom',
  severity: 'information',
  title: 'Headroom of a subwoofer',
  reason:
    'Bass peaks as high as the rest, the LFE 10 dB higher; a subwoofer that cannot make them limits, compresses or bottoms out.',
  advice:
    'Take boosts out of its equaliser, move it to where the room helps, share the work with a second one, or listen at a lower level.',
  source:
    'any third octave from 31.5 Hz to the crossover, reference level and 20 dB: common practice, no source; LFE +10 dB: ITU-R BS.775-3 Annex 7; free field',

  *find({ room, levels: { reach } }) {
    const told = new Set<string>();
    for (const figures of reach ?? []) {
      const { source: sub, seat, isLfe, isSubwoofer, together, worst, wanted_db, bands } = figures;
      if (!isSubwoofer || worst === null || wanted_db === null) continue;
      if (-ROUNDING_DB <= worst.headroom_db || told.has(`${sub} ${isLfe}`)) continue;
      for (const id of [sub, ...together]) told.add(`${id} ${isLfe}`);
      const isShort = (left_db: number | null) => left_db !== null && left_db < -ROUNDING_DB;
      yield {
        path: sourcePath(room, sub),
        fact: {
          subs: [sub, ...together],
          seat,
          isLfe,
          short_db: -worst.headroom_db,
          frequency_hz: worst.frequency_hz,
          wanted_db,
          bandCount: bands.filter(({ headroom_db }) => isShort(headroom_db)).length,
        },
        // The room's gain is not in it: a shortfall of the LFE alone is told, not held against anyone.
        severity: worst.headroom_db < -SEVERE_DB && !isLfe ? 'warning' : 'information',
        measured: { value: worst.headroom_db, unit: 'dB' },
        limit: { value: 0, unit: 'dB' },
      };
    }
  },

  message: ({ subs, seat, isLfe, short_db, frequency_hz, wanted_db, bandCount }, show) =>
    `${subs.join(' and ')} ${subs.length === 1 ? 'is' : 'are'} ${show.level(short_db)} short of ${isLfe ? 'LFE ' : ''}peaks of ${show.level(wanted_db)} at ${seat}, at ${show.frequency(frequency_hz)}${
      1 < bandCount ? ` (short in ${bandCount} third octaves)` : ''
    }; what the room adds is not counted`,
});
