// Rule eq/boost-below-tuning: no equaliser lifts what lies below a driver's own roll-off.

import { defineRule, type Rule } from '../rule.ts';
import { boosts } from './boosts.ts';

interface Fact {
  readonly id: string;
  readonly frequency_hz: number;
  readonly gain_db: number;
  readonly minus6db_hz: number;
  readonly isVented: boolean;
}

export const eqBoostBelowTuning: Rule = defineRule<Fact>({
  code: 'eq/boost-below-tuning',
  severity: 'warning',
  title: 'Boost below the roll-off',
  reason:
    'Below its roll-off a driver moves four times as far for each octave, and in a vented box nothing holds it: it distorts, or breaks, before it gets louder.',
  advice: 'Take the boost out; let a subwoofer that reaches lower play this, or do without it.',
  source:
    'volume displacement ∝ 1/f² for the same pressure; no boost below the −6 dB point: common practice, no source',

  *find(setup) {
    const { room } = setup;
    for (const { path, targets, frequency_hz, gain_db } of boosts(setup)) {
      const all = [...room.speakers, ...room.subwoofers].filter(({ id }) => targets.includes(id));
      // The driver that gives up first decides.
      const [first] = all
        .flatMap(({ id, gear }) => (gear?.lowEnd ? [{ id, lowEnd: gear.lowEnd }] : []))
        .filter(({ lowEnd }) => frequency_hz < lowEnd.minus6db_hz)
        .toSorted((a, b) => b.lowEnd.minus6db_hz - a.lowEnd.minus6db_hz);
      if (first === undefined) continue;
      const { id, lowEnd } = first;
      yield {
        path,
        fact: {
          id,
          frequency_hz,
          gain_db,
          minus6db_hz: lowEnd.minus6db_hz,
          isVented: lowEnd.kind === 'vented',
        },
        measured: { value: frequency_hz, unit: 'Hz' },
        limit: { value: lowEnd.minus6db_hz, unit: 'Hz' },
        fixes: [{ title: 'Take this band out', edits: [{ do: 'remove', path }], safe: false }],
      };
    }
  },

  message: ({ id, frequency_hz, gain_db, minus6db_hz, isVented }, show) =>
    `${show.level(gain_db)} of boost at ${show.frequency(frequency_hz)}, below the -6 dB point of ${id} (${show.frequency(minus6db_hz)}${isVented ? ', vented' : ''})`,
});
