// Rule levels/attenuation: at the reference level not much is taken away from the signal while it is numbers.

import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly ids: readonly string[];
  readonly digital_db: number;
  readonly surplus_db: number;
  readonly trims_db: number;
}

/** Common practice, no source. */
const LIMIT_DB = 20;

export const levelsAttenuation: Rule = defineRule<Fact>({
  code: 'levels/attenuation',
  severity: 'information',
  title: 'Much digital attenuation',
  reason:
    'What is taken away as numbers brings the noise of converter, amplifier and loudspeaker nearer to the music, and a slip at the control full level to the ears.',
  advice:
    'Turn the loudspeakers or their inputs down, so that the control stands near its top at the reference level.',
  source: 'more than 20 dB at the reference level: common practice, no source',

  *find({ room, levels: { attenuation } }) {
    const much = (attenuation ?? []).filter(({ digital_db }) => LIMIT_DB + 0.05 < digital_db);
    const worst = much.toSorted((a, b) => b.digital_db - a.digital_db)[0];
    if (worst === undefined) return;
    const ids = [...new Set(much.map(({ target }) => target))];
    yield {
      path: sourcePath(room, worst.target),
      fact: { ids, ...worst },
      measured: { value: worst.digital_db, unit: 'dB' },
      limit: { value: LIMIT_DB, unit: 'dB' },
      related: ids
        .filter((id) => id !== worst.target)
        .map((id) => ({ path: sourcePath(room, id), message: 'Turned down as well' })),
    };
  },

  message: ({ ids, digital_db, surplus_db, trims_db }, show) =>
    `${ids.join(', ')}: ${show.level(digital_db)} taken away as numbers at the reference level (${show.level(Math.max(0, surplus_db))} at the control, ${show.level(trims_db)} dialled in)`,
});
