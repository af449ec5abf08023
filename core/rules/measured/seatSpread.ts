// Rule measured/seat-spread: the seats were measured to hear much the same bass.

import { logGrid_hz } from '../../acoustics/frequencyGrid.ts';
import { JUDGED_HZ } from '../../field/extremes.ts';
import { spreadOf } from '../../field/spread.ts';
import { type WholeResponse, wholeResponses } from '../../measured/judgedTakes.ts';
import { onGrid_db } from '../../measured/onGrid.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly channel: string;
  readonly seats: readonly string[];
  readonly deviation_db: number;
  readonly worst: { readonly frequency_hz: number; readonly level_db: number };
}

/** As for predicted bass: one subwoofer in an untreated room makes about 5 to 6 dB. Common practice, no source. */
const MOST_DB = 6;
const POINTS_PER_OCTAVE = 24;

export const measuredSeatSpread: Rule = defineRule<Fact>({
  code: 'measured/seat-spread',
  severity: 'information',
  title: 'Seats measured to differ in the bass',
  reason: 'What is right at one seat is wrong at another, and no equaliser mends both.',
  advice: 'Several subwoofers, other places for them, or damping of the lowest modes.',
  source:
    'mean spatial variance after Welti & Devantier, J. Audio Eng. Soc. 54 (2006) 347; the policy’s limit, else 6 dB: common practice, no source',

  *find(setup) {
    const limit_db = setup.room.policy.tolerances.seat_spread ?? MOST_DB;
    const grid_hz = [...logGrid_hz(JUDGED_HZ.from, JUDGED_HZ.to, POINTS_PER_OCTAVE)];
    for (const takes of bySessionAndChannel(wholeResponses(setup))) {
      const [first] = takes;
      const curves = takes.map(({ response }) => onGrid_db(response, grid_hz));
      const at = grid_hz.flatMap((_, i) => (curves.every((curve) => curve[i] !== null) ? [i] : []));
      if (first === undefined || takes.length < 2 || at.length < POINTS_PER_OCTAVE) continue;
      const spread = spreadOf(
        at.map((i) => grid_hz[i] ?? 0),
        curves.map((curve) => Float64Array.from(at, (i) => curve[i] ?? 0)),
      );
      if (spread === null || spread.deviation_db <= limit_db) continue;
      const { deviation_db, worst } = spread;
      yield {
        path: first.path,
        fact: { channel: first.channel, seats: takes.map(({ seat }) => seat), deviation_db, worst },
        measured: { value: deviation_db, unit: 'dB' },
        limit: { value: limit_db, unit: 'dB' },
      };
    }
  },

  message: ({ channel, seats, deviation_db, worst }, show) =>
    `${seats.join(' and ')} differ by ${show.level(deviation_db)} (standard deviation) in ${channel}; most at ${show.frequency(worst.frequency_hz)}, ${show.level(worst.level_db)}; measured`,
});

function bySessionAndChannel(all: readonly WholeResponse[]): readonly (readonly WholeResponse[])[] {
  const groups = new Map<string, WholeResponse[]>();
  for (const one of all) {
    const key = JSON.stringify([one.session, one.channel]);
    const group = groups.get(key) ?? [];
    groups.set(key, group);
    if (!group.some(({ seat }) => seat === one.seat)) group.push(one);
  }
  return [...groups.values()];
}
