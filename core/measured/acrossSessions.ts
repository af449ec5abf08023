// Sessions of one set-up read together: what one cannot tell another may, and what one shows another may contradict.
//
// A set-up that is the same in the file may have been otherwise in the room on another day. So takes of several sessions are only put
// together where one session alone is undecided, and only as long as what then explains them is good enough for each of them alone.

import type { Setup } from '../setup.ts';
import { costOf, type Explanation, misfitWith, type SessionEvidence } from './causeFit.ts';
import { keysOf, NAMED } from './causeSearch.ts';
import { type Silent, silentNames } from './causeSilent.ts';
import { type Judged, judgedTakes, verdictOf } from './sessionVerdict.ts';
import type { Variant } from './variant.ts';
import { together } from './variantTogether.ts';
import type { Contradiction, SessionVerdict } from './verification.ts';

/** @param evidence of sessions of the same set-up, one entry each */
export function verdictsAcross(
  setup: Setup,
  evidence: readonly SessionEvidence[],
): readonly SessionVerdict[] {
  const judged = evidence.map((one) => judgedTakes(setup, [one]));
  const pool = pooling(setup);
  return judged.map((one) => {
    const others = judged.filter((other) => other !== one);
    if (others.length === 0) return verdictOf(setup, one);
    if (1 === one.rivals.length) return named(setup, one, others);
    return one.isOff ? undecided(setup, one, others, pool) : agreeing(setup, one, others);
  });
}

/** A cause is named: what do the others say to it? */
function named(setup: Setup, one: Judged, others: readonly Judged[]): SessionVerdict {
  const [best] = one.seen;
  const verdict = agreeing(setup, one, others);
  if (best === undefined) return verdict;
  const alike = others.filter((other) => isClear(other) && holds(other, best));
  const against = others.filter((other) => !holds(other, best) && isAgainst(other, best.variant));
  return {
    ...verdict,
    ...elsewhere(
      verdict,
      alike.map((other) => `The takes of ${idOf(other)} show it too`),
    ),
    ...(against.length === 0
      ? {}
      : { contradicted: against.map((other) => contradiction(one, best, other)) }),
  };
}

/** Nothing differs, or not beyond what is named: do the others show what would be silent here? */
function agreeing(setup: Setup, one: Judged, others: readonly Judged[]): SessionVerdict {
  const settling = (silent: Silent) => others.find((other) => isToldBy(other, silent));
  const showing = one.silent.flatMap((silent) => {
    const other = others.find((each) => isClear(each) && keysIn(each).has(silent.hypothesis.key));
    return other ? [`The takes of ${idOf(other)} show ${silent.hypothesis.name}`] : [];
  });
  const settled = one.silent.filter((silent) => settling(silent) !== undefined);
  const silent = one.silent.filter((each) => !settled.includes(each));
  const by = [...new Set(settled.flatMap((each) => settling(each) ?? []))].map(idOf);
  const verdict = verdictOf(setup, { ...one, silent });
  const said =
    settled.length === 0
      ? []
      : [
          `${silentNames(settled)} would look the same in these takes alone; those of ${by.join(' and ')} show that it is not so`,
        ];
  return {
    ...verdict,
    ...(by.length === 0 ? {} : { pooledWith: by }),
    ...elsewhere(verdict, [...showing, ...said]),
  };
}

/** It differs, and these takes cannot tell why: can they with the others'? */
function undecided(
  setup: Setup,
  one: Judged,
  others: readonly Judged[],
  pool: (all: readonly Judged[]) => Judged,
): SessionVerdict {
  const alone = verdictOf(setup, one);
  const contradicted: Contradiction[] = [];
  let left = others;
  while (0 < left.length) {
    const pooled = pool([one, ...left]);
    const [best] = pooled.seen;
    if (best === undefined || !isClear(pooled)) break;
    const unfit = left.filter((other) => !isGoodFor(other, best));
    if (unfit.length === 0 && isGoodFor(one, best)) {
      const verdict = verdictOf(setup, pooled);
      return {
        ...verdict,
        session: alone.session,
        pooledWith: left.map(idOf),
        ...elsewhere(alone, [
          `These takes alone cannot tell; with those of ${left.map(idOf).join(' and ')} they can`,
        ]),
        ...(contradicted.length === 0 ? {} : { contradicted }),
      };
    }
    contradicted.push(...unfit.map((other) => contradiction(one, best, other)));
    if (unfit.length === 0) break;
    left = left.filter((other) => !unfit.includes(other));
  }
  return { ...alone, ...(contradicted.length === 0 ? {} : { contradicted }) };
}

/** The same sessions are put together once. */
function pooling(setup: Setup): (all: readonly Judged[]) => Judged {
  const known = new Map<string, Judged>();
  return (all) => {
    const evidence = all.flatMap((one) => one.evidence).toSorted(byId);
    const key = JSON.stringify(evidence.map(({ plan }) => plan.session.id));
    const found = known.get(key) ?? judgedTakes(setup, evidence);
    known.set(key, found);
    return found;
  };
}

function byId(one: SessionEvidence, other: SessionEvidence): number {
  return one.plan.session.id < other.plan.session.id ? -1 : 1;
}

function elsewhere(
  { elsewhere: before = [] }: SessionVerdict,
  said: readonly string[],
): Pick<SessionVerdict, 'elsewhere'> {
  const all = [...before, ...said];
  return all.length === 0 ? {} : { elsewhere: all };
}

function idOf({ evidence }: Judged): string {
  return evidence[0]?.plan.session.id ?? '';
}

function isClear({ rivals }: Judged): boolean {
  return rivals.length === 1;
}

function ownBest({ seen, searched }: Judged): Explanation {
  return seen[0] ?? searched.stated;
}

function keysIn(judged: Judged): ReadonlySet<string> {
  return new Set(keysOf(ownBest(judged)));
}

function holds(judged: Judged, all: Explanation): boolean {
  const keys = keysIn(judged);
  return keysOf(all).every((key) => keys.has(key));
}

function toldOf({ evidence, searched: { weighing } }: Judged, variant: Variant): number {
  return weighing.told({ misfit: misfitWith(evidence, variant) });
}

function isAgainst(judged: Judged, variant: Variant): boolean {
  return toldOf(judged, judged.searched.stated.variant) + NAMED < toldOf(judged, variant);
}

function isToldBy(judged: Judged, { hypothesis }: Silent): boolean {
  const base = ownBest(judged);
  const variant = together(base.variant, hypothesis.variant([]));
  if (variant === null || keysOf(base).includes(hypothesis.key)) return false;
  return toldOf(judged, base.variant) + NAMED < toldOf(judged, variant);
}

/** What explains several sessions together is about as good for this one as what explains it best alone. */
function isGoodFor(judged: Judged, { variant }: Explanation): boolean {
  const own = ownBest(judged);
  return toldOf(judged, variant) <= toldOf(judged, own.variant) + costOf(own) + NAMED;
}

function contradiction(one: Judged, best: Explanation, other: Judged): Contradiction {
  const names = best.causes.map(({ hypothesis }) => hypothesis.name).join(' with ');
  const [stated, withIt] = [other.searched.stated.variant, best.variant].map((variant) =>
    toldOf(other, variant).toFixed(0),
  );
  const [mine, theirs] = [dateOf(one), dateOf(other)];
  const order = mine === null || theirs === null || mine === theirs ? 0 : mine < theirs ? 1 : -1;
  const agrees = !other.isOff;
  const isPutRight = agrees && order === 1;
  const meaning = isPutRight
    ? `it seems to have been put right before ${idOf(other)}`
    : agrees && order === -1
      ? `it seems to have come about after ${idOf(other)}`
      : 'something was changed between them, though the set-up is said to be the same';
  return {
    by: idOf(other),
    isPutRight,
    message: `What explains ${idOf(one)} (${names}) does not fit ${idOf(other)}, whose misfit is ${stated} as the file has it and ${withIt} with it: ${meaning}`,
  };
}

function dateOf({ evidence }: Judged): string | null {
  return evidence[0]?.plan.session.date ?? null;
}
