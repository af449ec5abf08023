// Looks for what explains the takes: causes one by one, then on top of the best ones further causes, as long as each pays for itself.
//
// A beam: of each number of causes the few best are gone on from. In the end each cause of the best is taken out once more, and left out
// where the others do nearly as well without it.

import {
  asStated,
  costOf,
  type Evidence,
  type Explanation,
  fitCause,
  misfitIn,
  refit,
  total,
} from './causeFit.ts';
import type { CauseKind, Hypothesis } from './causeHypothesis.ts';
import type { Misfit } from './misfit.ts';

/** 2 ln of the evidence for one against another. @source Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773: above 10 very strong, above 6 strong */
export const NAMED = 10;
export const TOLD_APART = 6;

/** More at once are no mistakes but another room. Our own limit. */
const MOST_CAUSES = 3;
/** So many are gone on from, and so many of what comes of them are fitted once more with all their figures. */
const BEAM = 3;
const REFITTED = 6;
/** What is so much worse than the best of as many causes is not gone on from: rivals lie nearer. */
const BEHIND = 60;

/** What the bass of a room with another side, or of other air, may pass for. */
const LIKE_THE_ROOM: readonly CauseKind[] = ['distance', 'moved', 'level'];

export interface Searched {
  readonly stated: Explanation;
  /** Best first; of those that say the same of the same subjects only the best. */
  readonly ranked: readonly Explanation[];
  readonly weighing: Weighing;
}

export interface Weighing {
  /** The criterion, and what each of several causes must pay: less is better. */
  readonly standing: (one: Explanation) => number;
  /** The misfit as it is told: bands by what of them nothing explains. */
  readonly told: (one: Pick<Explanation, 'misfit'>) => number;
}

/** @param isSuspicious whether anything is to be explained; else only what leaves nothing to choose is tried, and alone */
export function searchCauses(
  evidence: Evidence,
  all: readonly Hypothesis[],
  isSuspicious: boolean,
): Searched {
  const stated = asStated(evidence);
  const tried = all.filter(({ parameters }) => isSuspicious || parameters.length === 0);
  const search: Search = { evidence, all: tried, stated };
  const cheap = tried.filter(({ isDear }) => !isDear);
  const singles = fitAll(search, stated, cheap, []);
  const found = isSuspicious
    ? withDear(
        search,
        grown(search, singles, () => cheap),
      )
    : singles;
  const whole = [...found, ...oneLess(search, found)];
  const weighing = weighingOf(stated, whole);
  return { stated, ranked: rankedBy(weighing, whole), weighing };
}

/** What may be tried on top of an explanation. */
type Choice = (base: Explanation) => readonly Hypothesis[];

/** With further causes on top, as long as that pays. */
function grown(
  search: Search,
  singles: readonly Explanation[],
  choice: Choice,
): readonly Explanation[] {
  let found = singles;
  for (let count = 1; count < MOST_CAUSES; count++) {
    const further = oneMore(search, found, count, choice);
    if (further.length === 0) break;
    found = [...found, ...further];
  }
  return found;
}

/**
 * Causes for which the whole field is worked out anew come last: alone only where no other one explains all there is, but for a place
 * or a level, which they may look like; together with others only where nothing else explains all.
 */
function withDear(search: Search, found: readonly Explanation[]): readonly Explanation[] {
  const { all, stated } = search;
  const dear = all.filter(({ isDear }) => isDear);
  const mayBeTheRoom = ({ causes }: Explanation) =>
    causes.some(({ hypothesis: { kind } }) => LIKE_THE_ROOM.includes(kind));
  const explainsAll = (one: Explanation) =>
    leavesNothing(one.misfit) &&
    total(one.misfit, stated.misfit) + costOf(one) <
      total(stated.misfit, stated.misfit) - NAMED * one.causes.length;
  if (
    dear.length === 0 ||
    found.some((one) => !one.causes[1] && !mayBeTheRoom(one) && explainsAll(one))
  )
    return found;
  const whole = [...found, ...fitAll(search, stated, dear, found)];
  if (whole.some(explainsAll)) return whole;
  const isDear = ({ causes }: Explanation) => causes.some(({ hypothesis }) => hypothesis.isDear);
  return grown(search, whole, (base) => (isDear(base) ? all : dear));
}

/** What is left of an explanation without one of its causes, the others fitted anew. */
export function without(
  evidence: Evidence,
  stated: Explanation,
  one: Explanation,
  index: number,
): Explanation {
  const causes = one.causes.filter((_, i) => i !== index);
  return causes.length === 0 ? stated : refit(evidence, stated.misfit, { ...one, causes });
}

interface Search {
  readonly evidence: Evidence;
  readonly all: readonly Hypothesis[];
  readonly stated: Explanation;
}

function weighingOf(stated: Explanation, found: readonly Explanation[]): Weighing {
  const mean = ({ misfit: { bands, bandCount } }: Explanation) =>
    0 < bandCount ? bands / bandCount : 0;
  const scale = Math.max(1, Math.min(...[stated, ...found].map(mean)));
  const told = ({ misfit }: Pick<Explanation, 'misfit'>) => total(misfit, stated.misfit, scale);
  return { told, standing: (one) => told(one) + costOf(one) + NAMED * one.causes.length };
}

function rankedBy({ standing }: Weighing, found: readonly Explanation[]): readonly Explanation[] {
  const sorted = found
    .map((one) => ({ one, key: keysOf(one).toSorted().join(', '), at: standing(one) }))
    .toSorted((a, b) => a.at - b.at);
  return sorted
    .filter(({ key }, i) => sorted.findIndex((other) => other.key === key) === i)
    .map(({ one }) => one);
}

export function keysOf({ causes }: Explanation): readonly string[] {
  return causes.map(({ hypothesis: { key } }) => key);
}

/** Further causes on top of the best with `count` of them. */
function oneMore(
  search: Search,
  found: readonly Explanation[],
  count: number,
  choice: Choice,
): readonly Explanation[] {
  const { evidence, stated } = search;
  const weighing = weighingOf(stated, found);
  const { standing } = weighing;
  const paying = rankedBy(
    weighing,
    found.filter((one) => one.causes.length === count && standing(one) < standing(stated)),
  );
  const [least = stated] = rankedBy(weighing, found);
  // What a further cause can reach at best: half of what the best leaves now.
  const reach = (one: Explanation) =>
    costOf(one) + NAMED * (count + 1) + weighing.told(least) / 2 - TOLD_APART;
  const bases = paying
    .filter((one, _, [best]) => best !== undefined && standing(one) < standing(best) + BEHIND)
    .filter((one) => reach(one) < standing(least))
    .slice(0, BEAM);
  const further = bases.flatMap((base) =>
    fitAll(search, base, worthTrying(search, base, weighing, choice(base)), []).filter(
      (one) => standing(one) < standing(base) + TOLD_APART,
    ),
  );
  return rankedBy(weighing, further).map((one, i) =>
    i < REFITTED ? refit(evidence, stated.misfit, one) : one,
  );
}

/** The best without each of its causes, as long as that is better. */
function oneLess(search: Search, found: readonly Explanation[]): readonly Explanation[] {
  const { evidence, stated } = search;
  const weighing = weighingOf(stated, found);
  const [best] = rankedBy(weighing, found);
  if (best === undefined || best.causes.length < 2) return [];
  const fewer = best.causes.map((_, i) => without(evidence, stated, best, i));
  const isBetter = fewer.some((one) => weighing.standing(one) < weighing.standing(best));
  return isBetter ? [...fewer, ...oneLess(search, [...found, ...fewer])] : fewer;
}

/** A loudspeaker whose takes leave nothing to be explained has nothing more the matter. */
function worthTrying(
  { evidence }: Search,
  base: Explanation,
  { told }: Weighing,
  choice: readonly Hypothesis[],
): readonly Hypothesis[] {
  const share = told(base) / Math.max(1e-9, total(base.misfit, base.misfit));
  const isKnown = (key: string) => keysOf(base).includes(key);
  return choice.filter(({ key, sources }) => {
    if (isKnown(key)) return false;
    return sources === null
      ? !leavesNothing(base.misfit)
      : NAMED < share * misfitIn(evidence, base, sources);
  });
}

/** Those with fewer figures first, so that others can be given up early. @param known explanations that it must come near to as well */
function fitAll(
  { evidence, all, stated: { misfit: before } }: Search,
  base: Explanation,
  tried: readonly Hypothesis[],
  known: readonly Explanation[],
): readonly Explanation[] {
  const gain = base.causes.length === 0 ? Number.NEGATIVE_INFINITY : NAMED / 2;
  const reached = (one: Explanation) => total(one.misfit, before) + costOf(one) - costOf(base);
  let best = Math.min(...[base, ...known].map(reached));
  return tried
    .toSorted((a, b) => a.parameters.length - b.parameters.length)
    .flatMap((hypothesis) => {
      const alternatives = all.filter(({ kind }) => kind === hypothesis.kind).length;
      const one = fitCause({ evidence, before, best, alternatives, gain }, base, hypothesis);
      if (one === null) return [];
      best = Math.min(best, reached(one));
      return [one];
    });
}

/** What is left is no more than the errors of the figures make of themselves. */
function leavesNothing({ sharp, sharpCount, bands, bandCount }: Misfit): boolean {
  return sharp <= 1.5 * sharpCount && bands <= bandCount;
}
