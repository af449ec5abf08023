// Hints of the kind `measurement`: on each take its fit to the plan, its arrival and its level.

import type { MeasuredTake } from '../../../core/measured/measuredFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { comparisonOf, explainTake, levelText } from '../../words/measuredWords.ts';
import type { Hint } from './hint.ts';

export function measurementHints(setup: Setup, show: Show): readonly Hint[] {
  return (setup.measured?.sessions ?? []).flatMap(({ session, takes }) =>
    takes.flatMap((take): readonly Hint[] => {
      const parts = partsOf(setup, session, take, show);
      if (parts.length === 0) return [];
      return [
        {
          kind: 'measurement',
          path: take.path,
          rank: 3,
          name: null,
          parts,
          explanation: explainTake(setup, session, take.take, show)[0] ?? null,
          edits: [],
        },
      ];
    }),
  );
}

/** The fit first: where the line is full, the figures behind it give way. */
function partsOf(
  setup: Setup,
  session: string,
  take: MeasuredTake,
  show: Show,
): readonly Hint['parts'][number][] {
  if (take.isPending === true) return [{ text: 'being read …', dependsOn: null }];
  const compared = comparisonOf(setup, session, take.take);
  const isCompared =
    compared?.arrival || compared?.polarity || compared?.level || compared?.response;
  const fit = isCompared ? (compared?.summary ?? null) : null;
  const level = levelText(take, show);
  const seat = take.seat === null ? null : ['seats', take.seat, 'at'];
  const texts = [
    ...(fit === null ? [] : [{ text: shortened(fit), dependsOn: null }]),
    ...(take.arrival_s === null ? [] : [{ text: show.time(take.arrival_s), dependsOn: seat }]),
    ...(level === null ? [] : [{ text: level, dependsOn: null }]),
    ...(fit === null && take.polarity === 'inverted'
      ? [{ text: 'inverted', dependsOn: null }]
      : []),
  ];
  return texts;
}

/** A hint's first part is never cut away: it must not fill the line alone. */
const LONGEST_FIT = 34;

/** Of several differences the first ones; how many more there are is said. */
function shortened(summary: string): string {
  if (summary.length <= LONGEST_FIT) return summary;
  const said = summary.split(', ');
  for (let count = said.length - 1; 0 < count; count--) {
    const text = `${said.slice(0, count).join(', ')} and ${said.length - count} more`;
    if (text.length <= LONGEST_FIT) return text;
  }
  return `${summary.slice(0, LONGEST_FIT - 2)} …`;
}
