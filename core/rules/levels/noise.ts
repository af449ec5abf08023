// Rule levels/noise: the electronics stay well below the room's own noise at the reference seat.

import { type Background, backgroundOf } from '../../parts/levels/background.ts';
import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly seat: string;
  readonly level_dba: number;
  readonly background: Background;
  readonly loudest: string;
  readonly loudest_dba: number;
}

/** Ten decibels below it adds less than half a decibel: 10 lg(1 + 10^(−10/10)) = 0.41 dB. Common practice, no source. */
const MARGIN_DB = 10;

const FROM: Readonly<Record<Background['from'], string>> = {
  level: 'recorded',
  nr: 'from its NR',
  nc: 'from its NC',
  asked: 'NR 15, as nothing is recorded',
};

export const levelsNoise: Rule = defineRule<Fact>({
  code: 'levels/noise',
  severity: 'information',
  title: 'Noise of the electronics',
  reason:
    'Hiss that comes near the noise of the room is heard in pauses, and is taken for noise of the programme.',
  advice:
    'See which output or loudspeaker is loudest; take gain away after it and give it before it, as the table of gain says.',
  source:
    '10 dB below the background, which adds 0.4 dB to it: common practice, no source; dBA as NR + 5 or NC + 7: common practice, no source',

  *find({ room, background: recorded = null, levels, referenceSeat }) {
    const background = backgroundOf({ background: recorded });
    const limit_dba = background.level_dba - MARGIN_DB;
    for (const { level_dba, sources } of levels.noise ?? []) {
      const [loudest] = sources;
      if (loudest === undefined || level_dba <= limit_dba + 0.05) continue;
      yield {
        path: sourcePath(room, loudest.target),
        fact: {
          seat: referenceSeat ?? 'the seat',
          level_dba,
          background,
          loudest:
            loudest.kind === 'driver'
              ? `${loudest.at}’s own noise`
              : `${loudest.at} through ${loudest.target}`,
          loudest_dba: loudest.level_dba,
        },
        measured: { value: level_dba, unit: 'dBA' },
        limit: { value: limit_dba, unit: 'dBA' },
      };
    }
  },

  message: ({ seat, level_dba, background, loudest, loudest_dba }) =>
    `Noise of the electronics at ${seat} is ${level_dba.toFixed(1)} dBA, at most ${(background.level_dba - MARGIN_DB).toFixed(1)} dBA is asked for: ${MARGIN_DB} dB below a background of ${background.level_dba.toFixed(1)} dBA (${FROM[background.from]}); loudest is ${loudest}, ${loudest_dba.toFixed(1)} dBA`,
});
