// Rule measured/cause: where takes differ from the plan, what would explain all of it; of several things at once each with its own part.

import type { LikelyCause, SessionVerdict } from '../../measured/verification.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly cause: LikelyCause;
  /** The sessions whose takes name it. */
  readonly sessions: readonly string[];
}

export const measuredCause: Rule = defineRule<Fact>({
  code: 'measured/cause',
  severity: 'warning',
  title: 'Likely cause of a difference',
  reason:
    'With this otherwise than the file says, alone or together with what is named beside it, the plan worked out again fits the takes; nothing else does nearly as well.',
  advice: 'Look at it in the room; then put the room right, or the file.',
  source:
    'the plan worked out again with each cause, and with up to three at once; weighed by Laplace’s approximation of the evidence, MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 28; each named above 10, Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773',

  *find({ verification, measured }) {
    const pooled = new Set<string>();
    for (const verdict of verification?.sessions ?? []) {
      const { session, pooledWith = [] } = verdict;
      const path = measured?.sessions.find((one) => one.session === session)?.path ?? [];
      const sessions = [session, ...pooledWith];
      for (const cause of namedIn(verdict)) {
        // Sessions that were put together say the same: once is enough.
        const key = JSON.stringify([sessions.toSorted(), cause.kind, cause.path]);
        if (pooled.has(key)) continue;
        pooled.add(key);
        yield {
          path: cause.path,
          fact: { cause, sessions },
          ...(isPutRight(verdict) ? { severity: 'information' as const } : {}),
          measured: { value: cause.before, unit: 'misfit' },
          limit: { value: cause.after, unit: 'misfit' },
          related: [
            ...othersOf(verdict, cause).map((other) => ({
              path: other.path,
              message: `only together with this: ${other.message}`,
            })),
            { path, message: `measured in ${session}` },
          ],
          fixes: [cause.fix, cause.allFix ?? null].filter((fix) => fix !== null),
        };
      }
    }
  },

  message: ({ cause, sessions }) => {
    const { message, before, after, evidence, togetherWith = [] } = cause;
    const isAlone = togetherWith.length === 0;
    const misfit = `misfit ${before.toFixed(0)}${isAlone ? '' : ' without it'}, with it ${after.toFixed(0)}`;
    return [
      `${message} (${sessions.join(' with ')}: ${misfit})`,
      ...(isAlone ? [] : [`together with ${togetherWith.join(' and ')}`]),
      ...evidence,
    ].join('; ');
  },
});

/** The likeliest explanation; where it is not clear what it is, what all of them have. */
function namedIn({ verdict, causes }: SessionVerdict): readonly LikelyCause[] {
  const likeliest = causes.filter(({ explanation = 1 }) => explanation === 1);
  if (verdict === 'explained') return likeliest;
  return verdict === 'undecided' ? likeliest.filter(({ isCertain }) => isCertain === true) : [];
}

/** The rest of its explanation. */
function othersOf({ causes }: SessionVerdict, cause: LikelyCause): readonly LikelyCause[] {
  return causes.filter(
    (other) =>
      other !== cause && other.explanation !== undefined && other.explanation === cause.explanation,
  );
}

function isPutRight({ contradicted = [] }: SessionVerdict): boolean {
  return contradicted.some((one) => one.isPutRight);
}
