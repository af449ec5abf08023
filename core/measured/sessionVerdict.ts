// The verdict on a session: whether it agrees with the plan, what would explain where it does not, and what its takes cannot tell.

import type { Setup } from '../setup.ts';
import { assess, type Evidence, type Explanation, type SessionEvidence } from './causeFit.ts';
import type { Hypothesis } from './causeHypothesis.ts';
import { placeHypotheses } from './causePlace.ts';
import { type Searched, searchCauses, TOLD_APART } from './causeSearch.ts';
import { signalHypotheses } from './causeSignal.ts';
import { type Silent, silentlyOtherwise, silentTold } from './causeSilent.ts';
import { causesTold, isPartOf, rivalsTold } from './causeTold.ts';
import type { TakeResiduals } from './misfit.ts';
import type { TakeData } from './sessionData.ts';
import { AS_STATED } from './variant.ts';
import type { SessionVerdict } from './verification.ts';

/** Ranked explanations are listed as long as they are not out of the question against the first. */
const LISTED = 14;

/** What was found out about the takes of a session, or of several together. */
export interface Judged {
  readonly evidence: Evidence;
  /** Something differs from the plan by more than the takes can show. */
  readonly isOff: boolean;
  readonly searched: Searched;
  /** Explanations that pay for all of their causes, best first: none where nothing can be named. */
  readonly seen: readonly Explanation[];
  /** Of these the ones that cannot be told apart: one where it is clear. */
  readonly rivals: readonly Explanation[];
  /** What besides would show in none of the takes. */
  readonly silent: readonly Silent[];
}

/** @param evidence of one session; of several only in the same set-up */
export function judgedTakes(setup: Setup, evidence: Evidence): Judged {
  const isOff = evidence.some(differs);
  const isSuspicious = isOff || evidence.some((one) => BANDS_SUSPICIOUS < bandMisfit(one));
  const all = hypothesesOf(setup, evidence);
  const tried = isSuspicious ? all : all.filter(({ isPlace }) => !isPlace);
  const searched = searchCauses(
    evidence,
    tried.map(({ one }) => one),
    isSuspicious,
  );
  const { stated, ranked, weighing } = searched;
  const { standing } = weighing;
  const paying = isSuspicious ? ranked.filter((one) => standing(one) <= standing(stated)) : [];
  const [best = stated] = paying;
  const seen = paying.filter((one) => one === best || !isPartOf(one, best));
  const rivals = seen.filter((one) => standing(one) <= standing(best) + TOLD_APART);
  const silent =
    1 < rivals.length
      ? []
      : silentlyOtherwise(
          evidence,
          all.map(({ one }) => one),
          best,
          weighing,
        );
  return { evidence, isOff, searched, seen, rivals, silent };
}

interface Tried {
  readonly one: Hypothesis;
  readonly isPlace: boolean;
}

/** Each session has its own air: what is off in one says nothing of another. */
function hypothesesOf(setup: Setup, evidence: Evidence): readonly Tried[] {
  const [first] = evidence;
  if (first === undefined) return [];
  const heard = new Set(
    evidence.flatMap(({ data }) =>
      data.flatMap(({ planned }) => planned.drives.map(({ drive }) => drive.source.id)),
    ),
  );
  const takes = evidence.flatMap(({ plan }) => plan.takes);
  const places = placeHypotheses({ ...first.plan, takes }, heard);
  return [
    ...signalHypotheses(setup.room, heard).map((one) => ({ one, isPlace: false })),
    ...places
      .filter(({ kind }) => kind !== 'air' || evidence.length === 1)
      .map((one) => ({ one, isPlace: true })),
  ];
}

export function verdictOf(setup: Setup, judged: Judged): SessionVerdict {
  const { evidence, isOff, searched, seen, rivals, silent } = judged;
  const session = evidence[0]?.plan.session.id ?? '';
  const silentSaid = silentTold(setup, evidence, silent);
  const [best] = seen;
  if (best === undefined)
    return {
      session,
      verdict: isOff || 0 < silent.length ? 'undecided' : 'agrees',
      differs: isOff,
      causes: [],
      cannotTell: [...(isOff ? [NONE_EXPLAINS] : []), ...silentSaid],
    };
  const { standing } = searched.weighing;
  const listed = seen.filter((one) => standing(one) <= standing(best) + LISTED);
  const isClear = rivals.length === 1;
  return {
    session,
    verdict: isClear ? 'explained' : 'undecided',
    differs: true,
    causes: causesTold(setup, evidence, searched, listed, rivals),
    cannotTell: [...(isClear ? [] : [rivalsTold(setup, evidence, rivals)]), ...silentSaid],
  };
}

const NONE_EXPLAINS =
  'Undecided: it differs from the plan, and none of the usual causes, nor a few of them together, explains it well enough to be named';

/** Beyond this a sharp figure does not agree; a tenth of a per cent of all takes by chance. */
const OFF = 3.3;
/** Mean square of a take's bass in units of its errors: 1 is expected. Our own limits. */
const BANDS_OFF = 2.5;
const BANDS_SUSPICIOUS = 0.5;

function differs(evidence: SessionEvidence): boolean {
  const { residuals } = assess(evidence, AS_STATED);
  return evidence.data.some((data, i) => {
    const one = residuals.takes[i];
    return one !== undefined && isTakeOff(data, one);
  });
}

function isTakeOff({ arrival, mid, bands }: TakeData, one: TakeResiduals): boolean {
  if (one.isTurned === true) return true;
  if (arrival && OFF * arrival.error_s < Math.abs(one.arrival_s ?? 0)) return true;
  if (mid && OFF * mid.error_db < Math.abs(one.mid_db ?? 0)) return true;
  const squares = bands.flatMap(({ error_db }, band) => {
    const off = one.bands_db[band] ?? null;
    return off === null ? [] : [(off / error_db) ** 2];
  });
  const mean = squares.reduce((sum, square) => sum + square, 0) / Math.max(1, squares.length);
  return BANDS_OFF < mean;
}

function bandMisfit(evidence: SessionEvidence): number {
  const { bands, bandCount } = assess(evidence, AS_STATED).misfit;
  return 0 < bandCount ? bands / bandCount : 0;
}
