// Fits hypotheses to the takes and weighs them: misfit, plus what each free figure and each choice among alternatives costs.
//
// The criterion is −2 ln of the evidence in Laplace's approximation: misfit + Σ 2 ln(range / (√2π · error of the figure)) + 2 ln(number
// of alternatives of its kind). So a hypothesis with a free figure must explain more than one that leaves nothing to choose.
// Source: MacKay, Information Theory, Inference, and Learning Algorithms (2003), chapter 28, "Occam factor".

import type { Hypothesis, Parameter } from './causeHypothesis.ts';
import { type Misfit, misfitOf, type Residuals, residualsOf } from './misfit.ts';
import { improve, least } from './patternSearch.ts';
import type { SessionPlan } from './plan.ts';
import type { TakeData } from './sessionData.ts';
import type { Variant } from './variant.ts';

export interface SessionEvidence {
  readonly plan: SessionPlan;
  readonly data: readonly TakeData[];
  /** Of each take of `data` its place in the plan's. */
  readonly places: readonly number[];
}

export interface FittedHypothesis {
  readonly hypothesis: Hypothesis;
  readonly values: readonly number[];
  /** Error of each figure, one deviation. */
  readonly errors: readonly number[];
  readonly misfit: Misfit;
  /** What choosing it costs before it explains anything. */
  readonly cost: number;
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

export interface Assessed {
  readonly residuals: Residuals;
  readonly misfit: Misfit;
}

function sharpMisfit({ plan, data, places }: SessionEvidence, variant: Variant): number {
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

/**
 * Fits one hypothesis.
 *
 * @param before the misfit as stated
 * @param best the least total so far: what cannot come near it is given up early
 * @returns null where it was given up
 */
export function fitHypothesis(
  evidence: SessionEvidence,
  hypothesis: Hypothesis,
  before: Misfit,
  best: number,
  alternatives: number,
): FittedHypothesis | null {
  const { parameters, variant } = hypothesis;
  const sharpOf = (values: readonly number[]) => sharpMisfit(evidence, variant(values));
  const wholeOf = (values: readonly number[]) =>
    total(assess(evidence, variant(values)).misfit, before);
  const starts = product(parameters);
  const hasSharp = 0 < sharpMisfit(evidence, {}) + before.sharp;
  const cheap = starts.map((values) => ({ values, sharp: hasSharp ? sharpOf(values) : 0 }));
  const refined = hasSharp
    ? improve(sharpOf, least(cheap, ({ sharp }) => sharp).values, parameters)
    : null;
  if (refined !== null && best + HOPELESS < refined.misfit) return null;
  const worthwhile = cheap
    .toSorted((a, b) => a.sharp - b.sharp)
    .filter(({ sharp }, i) => i < 3 || sharp < (refined?.misfit ?? 0) + SPREAD);
  const coarse = [...worthwhile.map(({ values }) => values), ...(refined ? [refined.values] : [])];
  const start = least(
    coarse.map((values) => ({ values, misfit: wholeOf(values) })),
    ({ misfit }) => misfit,
  );
  if (best + HOPELESS < start.misfit) return null;
  const found = parameters.length === 0 ? start : improve(wholeOf, start.values, parameters);
  const errors = parameters.map((parameter, i) => errorOf(wholeOf, found.values, i, parameter));
  const occam = parameters.reduce(
    (sum, { from, to }, i) =>
      sum + Math.max(0, 2 * Math.log((to - from) / (Math.sqrt(2 * Math.PI) * (errors[i] ?? 1)))),
    0,
  );
  return {
    hypothesis,
    values: found.values,
    errors,
    misfit: assess(evidence, variant(found.values)).misfit,
    cost: occam + 2 * Math.log(alternatives),
  };
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
