// Rule record/drift: what was measured again in the same set-up comes out as before.

import type { Figure } from '../../finding.ts';
import type { Moved, TakeDrift } from '../../record/driftFigures.ts';
import type { Show } from '../../show.ts';
import { defineRule, type Found, type Rule } from '../rule.ts';

interface Fact {
  readonly take: TakeDrift;
  readonly earlier: string;
  readonly earlierDate: string;
  readonly limit_db: number;
  readonly isTied: boolean;
}

export const recordDrift: Rule = defineRule<Fact>({
  code: 'record/drift',
  severity: 'warning',
  title: 'Measurements have moved',
  reason:
    'Drivers age, furniture moves, a control is bumped: what moved is heard before anyone edits the file.',
  advice: 'Repeat the take; then look for what changed in the room, and note it in the file.',
  source: 'the policy’s `drift`, else 1 dB: common practice, no source; decay: ISO 3382-2',

  *find({ drift }) {
    for (const { earlier, earlierDate, changed, takes } of drift?.pairs ?? [])
      for (const take of takes) {
        if (drift === null || drift === undefined || take.moved.length === 0) continue;
        const { limit_db } = drift;
        const isTied = changed !== null;
        yield {
          path: take.path,
          fact: { take, earlier, earlierDate, limit_db, isTied },
          ...(isTied ? {} : { severity: 'information' }),
          ...figuresOf(take, limit_db),
        };
      }
  },

  message: ({ take, earlier, earlierDate, limit_db, isTied }, show) =>
    `${take.moved.map((what) => movedText(what, take, show)).join('; ')}, since ${earlier} of ${earlierDate} (allowed: ${show.level(limit_db)})${isTied ? '' : ', if the set-up was the same'}`,
});

function figuresOf(
  { response, level_db, moved }: TakeDrift,
  limit_db: number,
): Pick<Found<Fact>, 'measured' | 'limit'> {
  const value_db =
    moved[0] === 'response' ? response?.rms_db : moved[0] === 'level' ? level_db : null;
  if (value_db === null || value_db === undefined) return {};
  const inDb = (value: number): Figure => ({ value, unit: 'dB' });
  return { measured: inDb(value_db), limit: inDb(limit_db) };
}

function movedText(what: Moved, take: TakeDrift, show: Show): string {
  const { response, level_db, arrival, decay } = take;
  switch (what) {
    case 'response':
      return response === null
        ? ''
        : `response moved ${show.level(response.rms_db)} rms, most at ${show.frequency(response.worst.frequency_hz)} (${show.level(response.worst.moved_db)})`;
    case 'level':
      return `level moved ${show.level(level_db ?? 0)}`;
    case 'arrival':
      return `arrival moved ${show.time(arrival?.moved_s ?? 0)}`;
    case 'polarity':
      return 'polarity turned';
    case 'decay':
      return `decay moved at ${decay
        .filter((one) => one.limit_s < Math.abs(one.later_s - one.earlier_s))
        .map(
          ({ frequency_hz, earlier_s, later_s }) =>
            `${show.frequency(frequency_hz)} (${show.decayTime(earlier_s)} to ${show.decayTime(later_s)})`,
        )
        .join(', ')}`;
  }
}
