// Swaps and polarities that would show in none of the takes at hand: what agrees with the plan agrees as well with these.

import type { Setup } from '../setup.ts';
import { type Evidence, type Explanation, misfitWith } from './causeFit.ts';
import type { Hypothesis } from './causeHypothesis.ts';
import { TOLD_APART, type Weighing } from './causeSearch.ts';
import { tellingTake } from './tellingTake.ts';
import type { Variant } from './variant.ts';
import { together } from './variantTogether.ts';

export interface Silent {
  readonly hypothesis: Hypothesis;
  /** With what is taken to be so, and without it. */
  readonly variant: Variant;
  readonly base: Variant;
}

/** @param base what the takes are explained by, or the file as it stands */
export function silentlyOtherwise(
  evidence: Evidence,
  all: readonly Hypothesis[],
  base: Explanation,
  { told }: Weighing,
): readonly Silent[] {
  const known = new Set(base.causes.map(({ hypothesis }) => hypothesis.key));
  return all.flatMap((hypothesis): readonly Silent[] => {
    const isSuch = hypothesis.kind === 'swapped' || hypothesis.kind === 'polarity';
    const variant = isSuch ? together(base.variant, hypothesis.variant([])) : null;
    if (variant === null || known.has(hypothesis.key)) return [];
    const worse = told({ misfit: misfitWith(evidence, variant) }) - told(base);
    return worse < TOLD_APART ? [{ hypothesis, variant, base: base.variant }] : [];
  });
}

const MOST_NAMED = 3;

/** One sentence, with the takes that would tell; none where there is nothing to say. */
export function silentTold(
  setup: Setup,
  evidence: Evidence,
  silent: readonly Silent[],
): readonly string[] {
  if (silent.length === 0) return [];
  const named = silent.slice(0, MOST_NAMED);
  const more = silent.length - named.length;
  const takes = named.map(({ hypothesis: { sources }, variant, base }) =>
    tellingTake(setup, evidence, base, variant, sources),
  );
  const besides = 0 < more ? ` (and ${more} more)` : '';
  return [
    `Undecided: ${silentNames(named)}${besides} would look the same in these takes; ${[...new Set(takes)].join('; ')}`,
  ];
}

export function silentNames(silent: readonly Silent[]): string {
  const names = silent.map(({ hypothesis }) => hypothesis.name);
  const last = names.at(-1) ?? '';
  return names.length < 2 ? last : `${names.slice(0, -1).join(', ')} or ${last}`;
}
