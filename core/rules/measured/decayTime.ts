// Rule measured/decay-time: decay times of a session keep to the mask of the listening-room standards.

import { type SessionDecay, sessionDecay } from '../../measured/sessionDecay.ts';
import { decayMask_s } from '../decayMask.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Outlier extends SessionDecay {
  readonly limit_s: number;
}

interface Fact {
  readonly session: string;
  readonly outliers: readonly Outlier[];
  readonly worst: Outlier;
}

/** Digits in which decay times are told. */
const ROUNDING_S = 0.005;

export const measuredDecayTime: Rule = defineRule<Fact>({
  code: 'measured/decay-time',
  severity: 'information',
  title: 'Measured decay time outside the mask',
  reason:
    'A band that rings longer or shorter than its neighbours colours what is heard at the seat.',
  advice: 'Add or take away absorption that works in that band.',
  source:
    'EBU Tech 3276 and ITU-R BS.1116-3 §8.2.3.1: 0.25 (V/100 m³)^(1/3) s ± 0.05 s, wider below 200 Hz (from memory); mean over the takes as in ISO 3382-2',

  *find({ measured, room, space }) {
    const nominal_s = space?.nominalDecayTime_s;
    if (!nominal_s) return;
    for (const session of measured?.sessions ?? []) {
      const outliers = sessionDecay(session).flatMap((one): readonly Outlier[] => {
        const tolerance = room.policy.tolerances.decay_time ?? null;
        const mask = decayMask_s(nominal_s, one.frequency_hz, tolerance);
        if (mask === null) return [];
        if (mask.most_s + ROUNDING_S < one.decayTime_s) return [{ ...one, limit_s: mask.most_s }];
        return one.decayTime_s < mask.least_s - ROUNDING_S
          ? [{ ...one, limit_s: mask.least_s }]
          : [];
      });
      const [worst] = outliers.toSorted((a, b) => excess_s(b) - excess_s(a));
      if (worst === undefined) continue;
      yield {
        path: session.path,
        fact: { session: session.session, outliers, worst },
        measured: { value: worst.decayTime_s, unit: 's' },
        limit: { value: worst.limit_s, unit: 's' },
      };
    }
  },

  message({ session, outliers, worst }, show) {
    const where = outliers.map(({ frequency_hz }) => show.frequency(frequency_hz)).join(', ');
    const limit = `${worst.limit_s < worst.decayTime_s ? 'at most' : 'at least'} ${show.decayTime(worst.limit_s)}`;
    return `${session}: decay time outside the mask at ${where}; ${show.decayTime(worst.decayTime_s)} at ${show.frequency(worst.frequency_hz)}, ${limit} is asked for`;
  },
});

function excess_s({ decayTime_s, limit_s }: Outlier): number {
  return Math.abs(decayTime_s - limit_s);
}
