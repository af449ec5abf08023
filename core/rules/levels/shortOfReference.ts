// Rule levels/short-of-reference: with everything as dialled in, the calibration noise reaches the reference level.

import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly ids: readonly string[];
  readonly short_db: number;
}

/** What an ordinary control room adds to the free field at the seat: common practice, no source. */
const ROOM_DB = 6;

export const levelsShortOfReference: Rule = defineRule<Fact>({
  code: 'levels/short-of-reference',
  severity: 'information',
  title: 'Short of the reference level',
  reason:
    'With noise at its named level and every control up, the loudspeaker stays below the reference level: the gains along the way do not match.',
  advice:
    'Turn the loudspeaker or its input up, or raise the full level of the output that feeds it; then look at its headroom.',
  source:
    'sensitivities and full levels of the gear files, 20 lg of the distance; 6 dB for what a room adds: common practice, no source',

  *find({ room, levels: { attenuation } }) {
    const short = (attenuation ?? []).filter(({ surplus_db }) => surplus_db < -ROOM_DB - 0.05);
    const worst = short.toSorted((a, b) => a.surplus_db - b.surplus_db)[0];
    if (worst === undefined) return;
    const ids = [...new Set(short.map(({ target }) => target))];
    yield {
      path: sourcePath(room, worst.target),
      fact: { ids, short_db: -worst.surplus_db },
      measured: { value: worst.surplus_db, unit: 'dB' },
      limit: { value: -ROOM_DB, unit: 'dB' },
      related: ids
        .filter((id) => id !== worst.target)
        .map((id) => ({ path: sourcePath(room, id), message: 'Short as well' })),
    };
  },

  message: ({ ids, short_db }, show) =>
    `${ids.join(', ')}: noise at the calibration's level comes ${show.level(short_db)} short of the reference level, free field`,
});
