// Rule measured/decay-differs: the decay times in the file are those that were measured.

import { decayText, type SessionDecay, sessionDecay } from '../../measured/sessionDecay.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly session: string;
  readonly worst: SessionDecay & { readonly told_s: number };
}

/** Below this neither ear nor plan minds. @source ISO 3382-1: a just noticeable difference is 5 %; four of them, our own limit */
const MOST_SHARE = 0.2;
const LEAST_S = 0.04;

export const measuredDecayDiffers: Rule = defineRule<Fact>({
  code: 'measured/decay-differs',
  severity: 'information',
  title: 'Decay time is not the measured one',
  reason:
    'Damping of the bass, and with it every predicted response, follows the decay times in the file.',
  advice: 'Write the measured decay times into the file.',
  source: 'ISO 3382-1: 5 % is a just noticeable difference; the limit of 20 % is our own',

  *find({ measured, space }) {
    const told = space?.decayTime;
    for (const session of measured?.sessions ?? []) {
      const bands = sessionDecay(session);
      const offs = bands.flatMap((one) => {
        const known = told?.bands.find(
          ({ frequency_hz }) => Math.abs(Math.log2(frequency_hz / one.frequency_hz)) < 0.1,
        );
        if (known === undefined) return [];
        const told_s = known.decayTime_s;
        const off_s = Math.abs(one.decayTime_s - told_s);
        return Math.max(MOST_SHARE * told_s, LEAST_S) < off_s ? [{ ...one, told_s }] : [];
      });
      const [worst] = offs.toSorted((a, b) => share(b) - share(a));
      if (worst === undefined) continue;
      yield {
        path: ['space', told?.from === 'measured' ? 'decay_time' : 'surfaces'],
        fact: { session: session.session, worst },
        measured: { value: worst.decayTime_s, unit: 's' },
        limit: { value: worst.told_s, unit: 's' },
        related: [{ path: session.path, message: `measured in ${session.session}` }],
        fixes: [
          {
            title: `Write the decay times of ${session.session}`,
            edits: [{ do: 'set', path: ['space', 'decay_time'], value: decayText(bands) }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ session, worst }, show) =>
    `${session} has a decay time of ${show.decayTime(worst.decayTime_s)} at ${show.frequency(worst.frequency_hz)}, where the plan has ${show.decayTime(worst.told_s)}`,
});

function share({ decayTime_s, told_s }: Fact['worst']): number {
  return Math.abs(Math.log(decayTime_s / told_s));
}
