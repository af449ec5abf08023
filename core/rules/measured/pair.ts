// Rule measured/pair: left and right arrive together, equally loud and alike.

import { type PairTakes, pairTakes } from '../../measured/pairTakes.ts';
import type { Show } from '../../show.ts';
import { defineRule, type Found, type Rule } from '../rule.ts';

interface Fact {
  readonly pair: PairTakes;
  readonly what: 'arrival' | 'level' | 'response';
  readonly limit: number;
}

/** @source ITU-R BS.1116 (from memory): 100 µs */
const ARRIVAL_S = 1e-4;
/** Common practice, no source. */
const LEVEL_DB = 0.5;
/** Twice what ITU-R BS.1116 (from memory) allows loudspeakers in a free field, 1 dB: the room is in it here. */
const RESPONSE_DB = 2;

export const measuredPair: Rule = defineRule<Fact>({
  code: 'measured/pair',
  severity: 'warning',
  title: 'Left and right differ',
  reason:
    'The middle of the image moves to the earlier or louder side, and by frequency where responses differ.',
  advice: 'Set levels and delays of the pair alike; look for what stands beside one of them.',
  source:
    'the policy’s tolerances, else 0.1 ms (ITU-R BS.1116, from memory), 0.5 dB and 2 dB from 250 Hz to 2 kHz (common practice, no source)',

  *find(setup) {
    const { pair_arrival, pair_level } = setup.room.policy.tolerances;
    for (const pair of pairTakes(setup)) {
      yield* beyond(pair, 'arrival', pair.arrival_s, pair_arrival ?? ARRIVAL_S, 's');
      yield* beyond(pair, 'level', pair.level_db, pair_level ?? LEVEL_DB, 'dB');
      yield* beyond(pair, 'response', pair.response?.off_db ?? null, RESPONSE_DB, 'dB');
    }
  },

  message: ({ pair, what, limit }, show) => {
    const told = said(pair, what, show);
    const allowed = what === 'arrival' ? show.time(limit) : show.level(limit);
    return `${told} at ${pair.seat} in ${pair.session}, at most ${allowed} is allowed`;
  },
});

function* beyond(
  pair: PairTakes,
  what: Fact['what'],
  off: number | null,
  limit: number,
  unit: string,
): Iterable<Found<Fact>> {
  if (off === null || Math.abs(off) <= limit) return;
  yield {
    path: pair.path,
    fact: { pair, what, limit },
    measured: { value: off, unit },
    limit: { value: limit, unit },
  };
}

function said(
  { left, right, arrival_s, level_db, response }: PairTakes,
  what: Fact['what'],
  show: Show,
): string {
  if (what === 'arrival')
    return `${right} arrives ${show.time(Math.abs(arrival_s ?? 0))} ${0 < (arrival_s ?? 0) ? 'after' : 'before'} ${left}`;
  if (what === 'level')
    return `${right} is ${show.level(Math.abs(level_db ?? 0))} ${0 < (level_db ?? 0) ? 'louder' : 'quieter'} than ${left}`;
  return `${right} and ${left} differ by ${show.level(Math.abs(response?.off_db ?? 0))} at ${show.frequency(response?.frequency_hz ?? 0)}`;
}
