// The verdict on a session: whether it agrees with the plan, what would explain where it does not, and what its takes cannot tell.

import type { Setup } from '../setup.ts';
import { showFor } from '../show.ts';
import { evidenceOf } from './causeEvidence.ts';
import {
  type Assessed,
  assess,
  type FittedHypothesis,
  fitHypothesis,
  type SessionEvidence,
  total,
} from './causeFit.ts';
import type { Hypothesis } from './causeHypothesis.ts';
import { placeHypotheses } from './causePlace.ts';
import { signalHypotheses } from './causeSignal.ts';
import type { Misfit } from './misfit.ts';
import { tellingTake } from './tellingTake.ts';
import { AS_STATED } from './variant.ts';
import type { LikelyCause, SessionVerdict } from './verification.ts';

/** 2 ln of the evidence for one against another. @source Kass & Raftery, J. Am. Stat. Assoc. 90 (1995) 773: above 10 very strong, above 6 strong */
const NAMED = 10;
const TOLD_APART = 6;
/** Ranked causes are listed as long as they are not out of the question against the first. */
const LISTED = 14;
const MOST_LISTED = 3;

export function sessionVerdict(setup: Setup, evidence: SessionEvidence): SessionVerdict {
  const before = assess(evidence, AS_STATED);
  const heard = new Set(
    evidence.data.flatMap(({ planned }) => planned.drives.map(({ drive }) => drive.source.id)),
  );
  const isOff = differs(evidence, before);
  const isSuspicious = isOff || BANDS_SUSPICIOUS < bandMisfit(before);
  const all = [
    ...signalHypotheses(setup.room, heard),
    ...(isSuspicious ? placeHypotheses(evidence.plan, heard) : []),
  ];
  const fitted = fitAll(evidence, all, before, isSuspicious);
  const scale = Math.max(1, bandMisfit(before, fitted));
  const criterion = ({ misfit, cost }: FittedHypothesis) =>
    total(misfit, before.misfit, scale) + cost;
  const asStated = total(before.misfit, before.misfit, scale);
  const ranked = onePerKey(fitted.toSorted((a, b) => criterion(a) - criterion(b)));
  const seen = isSuspicious ? ranked.filter((one) => criterion(one) <= asStated - NAMED) : [];
  const [best] = seen;
  if (best === undefined) {
    return {
      session: evidence.plan.session.id,
      verdict: isOff ? 'undecided' : 'agrees',
      causes: [],
      cannotTell: [
        ...(isOff ? [NONE_EXPLAINS] : []),
        ...silent(setup, evidence, ranked, (one) => criterion(one) - asStated),
      ],
    };
  }
  const rivals = seen.filter((one) => criterion(one) <= criterion(best) + TOLD_APART);
  const listed = seen.filter((one) => criterion(one) <= criterion(best) + LISTED);
  return {
    session: evidence.plan.session.id,
    verdict: 1 < rivals.length ? 'undecided' : 'explained',
    causes: listed.slice(0, MOST_LISTED).map((one) => causeOf(setup, evidence, before, one, scale)),
    cannotTell: 1 < rivals.length ? [between(setup, evidence, rivals)] : [],
  };
}

const NONE_EXPLAINS =
  'Undecided: it differs from the plan, and none of the usual single causes explains it well enough to be named';

/** Beyond this a sharp figure does not agree; a tenth of a per cent of all takes by chance. */
const OFF = 3.3;
/** Mean square of a take's bass in units of its errors: 1 is expected. Our own limits. */
const BANDS_OFF = 2.5;
const BANDS_SUSPICIOUS = 0.5;

function differs({ data }: SessionEvidence, { residuals }: Assessed): boolean {
  return data.some(({ arrival, mid, bands }, i) => {
    const one = residuals.takes[i];
    if (one === undefined) return false;
    if (one.isTurned === true) return true;
    if (arrival && OFF * arrival.error_s < Math.abs(one.arrival_s ?? 0)) return true;
    if (mid && OFF * mid.error_db < Math.abs(one.mid_db ?? 0)) return true;
    const squares = bands.flatMap(({ error_db }, band) => {
      const off = one.bands_db[band] ?? null;
      return off === null ? [] : [(off / error_db) ** 2];
    });
    const mean = squares.reduce((sum, square) => sum + square, 0) / Math.max(1, squares.length);
    return BANDS_OFF < mean;
  });
}

/** Mean misfit of the bands: as stated, or of whatever explains them best. */
function bandMisfit({ misfit }: Assessed, fitted: readonly FittedHypothesis[] = []): number {
  const all = [misfit, ...fitted.map((one) => one.misfit)];
  return Math.min(...all.map(({ bands, bandCount }) => (0 < bandCount ? bands / bandCount : 0)));
}

/** Cheap ones first, so that others can be given up early; dear ones only where nothing else than a place, which they may look like,
 * explains all there is. */
function fitAll(
  evidence: SessionEvidence,
  all: readonly Hypothesis[],
  before: Assessed,
  isSuspicious: boolean,
): readonly FittedHypothesis[] {
  const asStated = total(before.misfit, before.misfit);
  let best = asStated;
  let isAllExplained = false;
  const rank = ({ parameters, isDear }: Hypothesis) => parameters.length + (isDear ? 9 : 0);
  return all
    .filter(({ parameters }) => isSuspicious || parameters.length === 0)
    .toSorted((a, b) => rank(a) - rank(b))
    .flatMap((hypothesis) => {
      if (hypothesis.isDear && isAllExplained) return [];
      const alternatives = all.filter(({ kind }) => kind === hypothesis.kind).length;
      const one = fitHypothesis(evidence, hypothesis, before.misfit, best, alternatives);
      if (one === null) return [];
      const reached = total(one.misfit, before.misfit) + one.cost;
      best = Math.min(best, reached);
      const isPlace = hypothesis.kind === 'distance' || hypothesis.kind === 'moved';
      isAllExplained ||= !isPlace && reached < asStated - NAMED && leavesNothing(one.misfit);
      return [one];
    });
}

/** What is left is no more than the errors of the figures make of themselves. */
function leavesNothing({ sharp, sharpCount, bands, bandCount }: Misfit): boolean {
  return sharp <= 1.5 * sharpCount && bands <= bandCount;
}

function onePerKey(ranked: readonly FittedHypothesis[]): readonly FittedHypothesis[] {
  return ranked.filter(
    ({ hypothesis }, i) =>
      ranked.findIndex((other) => other.hypothesis.key === hypothesis.key) === i,
  );
}

function causeOf(
  setup: Setup,
  evidence: SessionEvidence,
  before: Assessed,
  { hypothesis, values, errors, misfit }: FittedHypothesis,
  scale: number,
): LikelyCause {
  const show = showFor(setup.room.habits);
  const after = assess(evidence, hypothesis.variant(values));
  return {
    kind: hypothesis.kind,
    path: hypothesis.path,
    message: hypothesis.message(values, show),
    before: total(before.misfit, before.misfit, scale),
    after: total(misfit, before.misfit, scale),
    evidence: evidenceOf(evidence, before, after, { hypothesis, values, errors }, show),
    fix: hypothesis.fix(values, show),
  };
}

function between(
  setup: Setup,
  evidence: SessionEvidence,
  rivals: readonly FittedHypothesis[],
): string {
  const [one, other] = rivals;
  const names = rivals.slice(0, MOST_LISTED).map(({ hypothesis }) => hypothesis.name);
  const said = `Undecided between ${names.slice(0, -1).join(', ')} and ${names.at(-1) ?? ''}`;
  if (one === undefined || other === undefined) return said;
  const take = tellingTake(setup, evidence, variantOf(one), variantOf(other), heardBy(one, other));
  return `${said}: ${take}`;
}

function variantOf({ hypothesis, values }: FittedHypothesis) {
  return hypothesis.variant(values);
}

function heardBy(...all: readonly FittedHypothesis[]): readonly string[] | null {
  const lists = all.map(({ hypothesis }) => hypothesis.sources);
  return lists.some((list) => list === null) ? null : lists.flatMap((list) => list ?? []);
}

/** Swaps and polarities that would show in none of these takes. */
function silent(
  setup: Setup,
  evidence: SessionEvidence,
  ranked: readonly FittedHypothesis[],
  worse: (one: FittedHypothesis) => number,
): readonly string[] {
  return ranked
    .filter(({ hypothesis: { kind } }) => kind === 'swapped' || kind === 'polarity')
    .filter((one) => worse(one) - one.cost < TOLD_APART)
    .map((one) => {
      const take = tellingTake(setup, evidence, AS_STATED, variantOf(one), heardBy(one));
      return `Undecided: ${one.hypothesis.name} would look the same in these takes; ${take}`;
    });
}
