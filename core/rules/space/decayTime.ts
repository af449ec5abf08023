// Rule space/decay-time: measured decay times keep to the mask of the listening-room standards.

import { decayMask_s } from '../decayMask.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Outlier {
  readonly frequency_hz: number;
  readonly decayTime_s: number;
  readonly limit_s: number;
  readonly isLong: boolean;
}

interface Fact {
  readonly outliers: readonly Outlier[];
  readonly worst: Outlier;
}

/** Digits in which decay times are told, so that a figure on the line is not called beyond it. */
const ROUNDING_S = 0.005;

export const spaceDecayTime: Rule = defineRule<Fact>({
  code: 'space/decay-time',
  severity: 'information',
  title: 'Decay time outside the mask',
  reason:
    'A band that rings longer or shorter than its neighbours colours what is heard at the seat.',
  advice: 'Add or take away absorption that works in that band.',
  source:
    'EBU Tech 3276 and ITU-R BS.1116-3 §8.2.3.1: 0.25 (V/100 m³)^(1/3) s ± 0.05 s, wider below 200 Hz (from memory)',

  *find({ room, space }) {
    const decayTime = space?.decayTime;
    const nominal_s = space?.nominalDecayTime_s;
    if (decayTime?.from !== 'measured' || !nominal_s) return;
    const outliers = decayTime.bands.flatMap(({ frequency_hz, decayTime_s }): Outlier[] => {
      const mask = decayMask_s(nominal_s, frequency_hz, room.policy.tolerances.decay_time ?? null);
      if (mask === null) return [];
      if (mask.most_s + ROUNDING_S < decayTime_s) {
        return [{ frequency_hz, decayTime_s, limit_s: mask.most_s, isLong: true }];
      }
      if (decayTime_s < mask.least_s - ROUNDING_S) {
        return [{ frequency_hz, decayTime_s, limit_s: mask.least_s, isLong: false }];
      }
      return [];
    });
    const [worst] = outliers.toSorted((a, b) => excess(b) - excess(a));
    if (worst === undefined) return;
    yield {
      path: ['space', 'decay_time'],
      fact: { outliers, worst },
      measured: { value: worst.decayTime_s, unit: 's' },
      limit: { value: worst.limit_s, unit: 's' },
    };
  },

  message({ outliers, worst: { frequency_hz, decayTime_s, limit_s, isLong } }, show) {
    const list = (long: boolean) =>
      outliers
        .filter((one) => one.isLong === long)
        .map((one) => show.frequency(one.frequency_hz))
        .join(', ');
    const parts = [
      list(true) && `too long at ${list(true)}`,
      list(false) && `too short at ${list(false)}`,
    ];
    const where = 1 < outliers.length ? `, most at ${show.frequency(frequency_hz)}` : '';
    const limit = `${isLong ? 'at most' : 'at least'} ${show.decayTime(limit_s)} is asked for`;
    return `Decay time ${parts.filter(Boolean).join(', ')}${where}: ${show.decayTime(decayTime_s)}, ${limit}`;
  },
});

function excess({ decayTime_s, limit_s }: Outlier): number {
  return Math.abs(decayTime_s - limit_s);
}
