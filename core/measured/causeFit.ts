// Fits causes to the takes and weighs them: misfit, plus what each free figure and each choice among alternatives costs.
//
// The criterion is −2 ln of the evidence in Laplace's approximation: misfit + Σ 2 ln(range / (√2π · error of the figure)) + 2 ln(number
// of alternatives of its kind). So a cause with a free figure must explain more than one that leaves nothing to choose. Of several
// causes at once what they cost adds up. Errors are told each with the others held: where figures go together that counts them too dear,
// never too cheap. Source: MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 28, "Occam factor".

import type { Hypothesis, Parameter } from './causeHypothesis.ts';
import { type Misfit, misfitOf, type Residuals, residualsOf } from './misfit.ts';
import { improve, least } from './patternSearch.ts';
import type { SessionPlan } from './plan.ts';
import type { TakeData } from './sessionData.ts';
import { AS_STATED, type Variant } from './variant.ts';
import { together } from './variantTogether.ts';

export interface SessionEvidence {
  readonly plan: SessionPlan;
  readonly data: readonly TakeData[];
  /** Of each take of `data` its place in the plan's. */
  readonly places: readonly number[];
}

/** The takes of one session, or of several of one set-up: each with its own air, gain and clock. */
export type Evidence = readonly SessionEvidence[];

export interface FittedCause {
  readonly hypothesis: Hypothesis;
  readonly values: readonly number[];
  /** Error of each figure, one deviation. */
  readonly errors: readonly number[];
  /** How many of its kind could have been chosen. */
  readonly alternatives: number;
}

/** One cause or several at once. */
export interface Explanation {
  readonly causes: readonly FittedCause[];
  readonly variant: Variant;
  readonly misfit: Misfit;
}

export interface Assessed {
  readonly residuals: Residuals;
  readonly misfit: Misfit;
}

export function assess({ plan, data, places }: SessionEvidence, variant: Variant): Assessed {
  const predictions = plan.predict(variant);
  const residuals = residualsOf(
    data,
    places.map((index) => predictions[index]),
    plan.frequency_hz,
  );
  return { residuals, misfit: misfitOf(data, residuals) };
}

/** Of all sessions. */
export function misfitWith(evidence: Evidence, variant: Variant): Misfit {
  return evidence
    .map((one) => assess(one, variant).misfit)
    .reduce((sum, one) => ({
      sharp: sum.sharp + one.sharp,
      sharpCount: sum.sharpCount + one.sharpCount,
      bands: sum.bands + one.bands,
      bandCount: sum.bandCount + one.bandCount,
    }));
}

/** Of takes in which one of these loudspeakers was heard; of all takes where null. */
export function misfitIn(
  evidence: Evidence,
  { variant }: Explanation,
  sources: readonly string[] | null,
): number {
  return evidence.reduce((sum, { plan, data, places }) => {
    const { residuals } = assess({ plan, data, places }, variant);
    const isIn = ({ planned: { drives } }: TakeData) =>
      sources === null || drives.some(({ drive }) => sources.includes(drive.source.id));
    const takes = residuals.takes.filter((_, i) => data[i] !== undefined && isIn(data[i]));
    const misfit = misfitOf(data.filter(isIn), { ...residuals, takes });
    return sum + total(misfit, misfit);
  }, 0);
}

export function asStated(evidence: Evidence): Explanation {
  return { causes: [], variant: AS_STATED, misfit: misfitWith(evidence, AS_STATED) };
}

/** What choosing its causes and their figures costs before they explain anything. */
export function costOf({ causes }: Explanation): number {
  return causes.reduce(
    (sum, { hypothesis: { parameters }, errors, alternatives }) =>
      sum + occam(parameters, errors) + 2 * Math.log(alternatives),
    0,
  );
}

function occam(parameters: readonly Parameter[], errors: readonly number[]): number {
  return parameters.reduce(
    (sum, { from, to }, i) =>
      sum + Math.max(0, 2 * Math.log((to - from) / (Math.sqrt(2 * Math.PI) * (errors[i] ?? 1)))),
    0,
  );
}

function sharpMisfit(evidence: Evidence, variant: Variant): number {
  return evidence.reduce((sum, one) => sum + sharpOfSession(one, variant), 0);
}

function sharpOfSession({ plan, data, places }: SessionEvidence, variant: Variant): number {
  const predictions = plan.predictSharp(variant);
  const bare = data.map((one) => ({ ...one, bands: [], phases: [] }));
  const residuals = residualsOf(
    bare,
    places.map((index) => predictions[index]),
    plan.frequency_hz,
  );
  // A bass source's arrival and polarity are told by its phases, which are dear: it does not count here.
  const isBass = (i: number) => 0 < (data[i]?.phases.length ?? 0);
  const takes = residuals.takes.map((one, i) =>
    isBass(i) ? { ...one, arrival_s: null, isTurned: null } : one,
  );
  return misfitOf(bare, { ...residuals, takes }).sharp;
}

/** Misfit of everything; bands that a variant cannot tell count as badly as before. */
export function total({ sharp, bands, bandCount }: Misfit, before: Misfit, scale = 1): number {
  return sharp + (bandCount < before.bandCount - 1e-9 ? before.bands : bands) / scale;
}

/** What sharp figures alone leave may be so much worse than the best before a hypothesis is not looked at further. */
const HOPELESS = 25;

/** What a cause is tried against. */
export interface Trial {
  readonly evidence: Evidence;
  /** As the file has it. */
  readonly before: Misfit;
  /** The least total so far: what cannot come near it is given up early. */
  readonly best: number;
  /** How many of its kind could have been chosen. */
  readonly alternatives: number;
  /** What must be gained on the base at least: what gains less is given up. */
  readonly gain: number;
}

/**
 * Fits one more cause on top of what is taken to be so already, whose figures are held.
 *
 * @returns null where it was given up, or cannot be so besides
 */
export function fitCause(
  { evidence, before, best, alternatives, gain }: Trial,
  base: Explanation,
  hypothesis: Hypothesis,
): Explanation | null {
  const { parameters } = hypothesis;
  const starts = product(parameters);
  if (together(base.variant, hypothesis.variant(starts[0] ?? [])) === null) return null;
  const variant = (values: readonly number[]) =>
    together(base.variant, hypothesis.variant(values)) ?? base.variant;
  const sharpOf = (values: readonly number[]) => sharpMisfit(evidence, variant(values));
  const wholeOf = (values: readonly number[]) =>
    total(misfitWith(evidence, variant(values)), before);
  const hasSharp = 0 < sharpMisfit(evidence, base.variant) + before.sharp;
  const cheap = starts.map((values) => ({ values, sharp: hasSharp ? sharpOf(values) : 0 }));
  const refined = hasSharp
    ? improve(sharpOf, least(cheap, ({ sharp }) => sharp).values, parameters)
    : null;
  if (refined !== null && best + HOPELESS < refined.misfit) return null;
  // What the bass leaves is never less than nothing: what the sharp figures leave must be little enough.
  const most = Math.min((refined?.misfit ?? 0) + SPREAD, total(base.misfit, before) - gain);
  if (refined !== null && most < refined.misfit) return null;
  const worthwhile = cheap
    .toSorted((a, b) => a.sharp - b.sharp)
    .filter(({ sharp }, i) => i < 3 || sharp < most);
  const coarse = [...worthwhile.map(({ values }) => values), ...(refined ? [refined.values] : [])];
  const start = least(
    coarse.map((values) => ({ values, misfit: wholeOf(values) })),
    ({ misfit }) => misfit,
  );
  if (best + HOPELESS < start.misfit || total(base.misfit, before) - gain < start.misfit)
    return null;
  const found = parameters.length === 0 ? start : improve(wholeOf, start.values, parameters);
  return {
    causes: [
      ...base.causes,
      {
        hypothesis,
        values: found.values,
        errors: errorsOf(hypothesis, found.values, wholeOf),
        alternatives,
      },
    ],
    variant: variant(found.values),
    misfit: misfitWith(evidence, variant(found.values)),
  };
}

/** All figures of several causes once more, together. */
export function refit(evidence: Evidence, before: Misfit, given: Explanation): Explanation {
  const { causes } = given;
  const parameters = causes.flatMap(({ hypothesis }) => hypothesis.parameters);
  const own = (values: readonly number[]) => causes.map((_, i) => shareOf(causes, values, i));
  const wholeOf = (values: readonly number[]) =>
    total(misfitWith(evidence, variantOf(causes, own(values))), before);
  const start = causes.flatMap(({ values }) => values);
  const { values } =
    parameters.length === 0 ? { values: start } : improve(wholeOf, start, parameters);
  const found = own(values);
  const variant = variantOf(causes, found);
  return {
    causes: causes.map(({ hypothesis, alternatives }, i) => {
      const mine = found[i] ?? [];
      const withMine = (tried: readonly number[]) =>
        wholeOf(found.flatMap((one, j) => (i === j ? tried : one)));
      return {
        hypothesis,
        values: mine,
        errors: errorsOf(hypothesis, mine, withMine),
        alternatives,
      };
    }),
    variant,
    misfit: misfitWith(evidence, variant),
  };
}

/** Of the figures of all causes in a row those of one. */
function shareOf(
  causes: readonly FittedCause[],
  values: readonly number[],
  index: number,
): readonly number[] {
  const count = (of: readonly FittedCause[]) =>
    of.reduce((sum, { hypothesis: { parameters } }) => sum + parameters.length, 0);
  return values.slice(count(causes.slice(0, index)), count(causes.slice(0, index + 1)));
}

/** What several causes make of the room; they are known to go together. */
export function variantOf(
  causes: readonly FittedCause[],
  values: readonly (readonly number[])[],
): Variant {
  return causes.reduce<Variant>(
    (all, { hypothesis }, i) => together(all, hypothesis.variant(values[i] ?? [])) ?? all,
    AS_STATED,
  );
}

function errorsOf(
  { parameters }: Hypothesis,
  values: readonly number[],
  misfitAt: (values: readonly number[]) => number,
): readonly number[] {
  return parameters.map((parameter, i) => errorOf(misfitAt, values, i, parameter));
}

/** Starts whose sharp figures are worse than the best ones by no more than this may still win by the bass. */
const SPREAD = 60;

function product(parameters: readonly Parameter[]): readonly (readonly number[])[] {
  return parameters.reduce<readonly (readonly number[])[]>(
    (all, { scan }) => all.flatMap((values) => scan.map((value) => [...values, value])),
    [[]],
  );
}

/** From the curvature of the misfit about its least. */
function errorOf(
  misfitAt: (values: readonly number[]) => number,
  values: readonly number[],
  index: number,
  parameter: Parameter,
): number {
  const range = parameter.to - parameter.from;
  const middle = misfitAt(values);
  for (const share of [0.002, 0.01, 0.05]) {
    const step = range * share;
    const at = (by: number) =>
      misfitAt(values.map((value, i) => (i === index ? value + by : value)));
    const rise = (at(step) + at(-step)) / 2 - middle;
    if (0.25 < rise) return step / Math.sqrt(rise);
  }
  return range;
}
