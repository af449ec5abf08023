// Rule levels/lfe-gain: the LFE is replayed 10 dB above a main channel in its band.

import { LFE_GAIN_DB } from '../../acoustics/levels.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isLfePath, settingAt } from '../signal/stages.ts';

interface Fact {
  readonly sub: string;
  readonly gain_db: number;
}

/** As levels are matched: common practice, no source. */
const LIMIT_DB = 0.5;

export const levelsLfeGain: Rule = defineRule<Fact>({
  code: 'levels/lfe-gain',
  severity: 'warning',
  title: 'LFE gain',
  reason:
    'The LFE is recorded 10 dB low; replayed at another gain, effects are too weak or too strong here and mixes do not travel.',
  advice: 'Set the LFE gain to 10 dB in all, in one place only.',
  source: 'ITU-R BS.775-3 Annex 7',

  *find({ room, signalPaths, advice }) {
    const told = new Set<string>();
    for (const path of signalPaths) {
      if (!isLfePath(path) || told.has(path.target)) continue;
      const stages = path.stages.filter(({ kind }) => kind === 'lfe_gain');
      const values = stages.map(({ settingPath }) => settingAt(room, settingPath));
      if (stages.length === 0 || values.some((value) => value?.kind !== 'level')) continue;
      const gain_db = values.reduce(
        (sum_db, value) => sum_db + (value?.kind === 'level' ? value.level_db : 0),
        0,
      );
      if (Math.abs(gain_db - LFE_GAIN_DB) <= LIMIT_DB + 1e-9) continue;
      told.add(path.target);
      const at = stages[0]?.settingPath ?? ['settings', path.target];
      const fix = advice.find((one) => one.path.join('\n') === at.join('\n'))?.fix;
      yield {
        path: at,
        fact: { sub: path.target, gain_db },
        measured: { value: gain_db, unit: 'dB' },
        limit: { value: LFE_GAIN_DB, unit: 'dB' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ sub, gain_db }, show) =>
    `The LFE reaches ${sub} with ${show.level(gain_db)} of gain where 10 dB are asked for`,
});
