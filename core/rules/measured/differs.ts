// Rule measured/differs: arrival, polarity, level and response of a take are what the plan says.

import { LEAST_INSIDE } from '../../measured/compareTakes.ts';
import type { TakeComparison } from '../../measured/verification.ts';
import type { Setup } from '../../setup.ts';
import { defineRule, type Found, type Rule } from '../rule.ts';

interface Fact {
  readonly take: TakeComparison;
}

/** What `summary` calls an agreement. */
const AGREES = new Set(['agrees', 'nothing to compare']);

export const measuredDiffers: Rule = defineRule<Fact>({
  code: 'measured/differs',
  severity: 'warning',
  title: 'Measured otherwise than planned',
  reason: 'Either the room is not as the file says, or the take is not of what the file says.',
  advice: 'Look at the likely cause, if one is named; repeat the take otherwise.',
  source:
    'the plan of the take against what was measured; more than three standard errors off, or more than half of the response outside its envelope: our own limits',

  *find({ verification }) {
    for (const take of verification?.takes ?? []) {
      if (AGREES.has(take.summary)) continue;
      const isExplained = isNamed(verification, take.session);
      yield {
        path: take.path,
        fact: { take },
        ...(isExplained ? { severity: 'information' as const } : {}),
        ...figures(take),
      };
    }
  },

  message: ({ take: { take, summary, arrival } }, show) =>
    arrival && /late|early/.test(summary)
      ? `${take}: ${summary}; ${show.time(arrival.measured_s)}, where ${show.time(arrival.planned_s)} is planned`
      : `${take}: ${summary}`,
});

function isNamed(verification: Setup['verification'], session: string): boolean {
  return verification?.sessions.find((one) => one.session === session)?.verdict === 'explained';
}

function figures({ summary, arrival, level, response }: TakeComparison): Partial<Found<Fact>> {
  if (arrival && /late|early/.test(summary))
    return {
      measured: { value: arrival.measured_s, unit: 's' },
      limit: { value: arrival.planned_s, unit: 's' },
    };
  if (level && /louder|quieter/.test(summary))
    return { measured: { value: level.off_db, unit: 'dB' } };
  if (response && response.inside !== null && response.inside < LEAST_INSIDE)
    return {
      measured: { value: response.inside, unit: 'share' },
      limit: { value: LEAST_INSIDE, unit: 'share' },
    };
  return {};
}
