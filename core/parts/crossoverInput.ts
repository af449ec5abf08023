// What a crossover case offers and what is dialled in there, as plain data for the ranking and the sums.

import type { Steps } from '../../schema/model/gear.ts';
import type { FilterChoice } from '../setup.ts';
import type { GovernedStage } from '../signal/governing.ts';
import type { TracedPath } from '../signal/traced.ts';
import type { CrossoverCase, FilterStage } from './crossoverCase.ts';
import type { RankingInput } from './crossoverRanking.ts';
import { type Ends, highestMain } from './crossoverSides.ts';

/** What the device offers; null while the mains' roll-off is not recorded. */
export function rankingInput(of: CrossoverCase): RankingInput | null {
  const main = highestMain(of.mains);
  if (main === undefined) return null;
  const high = of.high[0]?.control ?? null;
  const low = of.low[0]?.control ?? null;
  const offers = [high, low].flatMap((control) => control ?? []);
  const delay = delayRange(of);
  return {
    main,
    sub: subEnds(of),
    frequency_hz: narrower(offers.map(({ frequency_hz }) => frequency_hz)),
    mainSlope_db_oct: high?.slope_db_oct ?? null,
    subSlope_db_oct: low?.slope_db_oct ?? null,
    mainFamily: high?.family ?? null,
    subFamily: low?.family ?? null,
    canInvert: [...of.subPaths, ...of.mainPaths].some(hasPolarity),
    phases: phasesOf(of, delay),
    delay,
  };
}

/** Searched where no delay can do its work; beside a delay it counts as it is dialled in, or not at all. */
function phasesOf(of: CrossoverCase, delay: RankingInput['delay']): RankingInput['phases'] {
  const { control, value } = phaseOf(of.subPaths[0]) ?? {};
  if (control?.kind !== 'phase') return null;
  const dialled_rad = value?.kind === 'phase' ? [value.phase_rad] : null;
  const lag_rad = delay.most_s === 0 ? control.phase_rad.choices : dialled_rad;
  return lag_rad === null ? null : { lag_rad, at_hz: control.at_hz ?? DEFAULT_AT_HZ };
}

/** Where a phase control names no frequency: common practice, no source. */
const DEFAULT_AT_HZ = 80;

/** The first subwoofer that tells of its ends stands for all. */
export function subEnds({ subs }: CrossoverCase): Ends {
  const gear = subs.find((sub) => sub.gear?.lowEnd)?.gear ?? subs[0]?.gear;
  return {
    lowEnd: gear?.lowEnd ?? null,
    highEnd: gear?.highEnd ?? null,
    maxLevel: gear?.maxLevel ?? null,
  };
}

/** What is dialled in on both sides; null on a side without a filter, or whose filter is not in use. */
export interface Dialled {
  readonly high: FilterChoice | null;
  readonly low: FilterChoice | null;
  /** Every filter that there is stands at bypass. */
  readonly isBypassed: boolean;
  /** A filter that there is has no setting, or one that cannot be read. */
  readonly isMissing: boolean;
  readonly isInverted: boolean;
  readonly phase: { readonly lag_rad: number; readonly at_hz: number | null } | null;
}

export function dialledOf({ high, low, mainPaths, subPaths }: CrossoverCase): Dialled {
  const stages = [high[0], low[0]].flatMap((stage) => stage ?? []);
  const phase = phaseOf(subPaths[0]);
  return {
    high: choiceOf(high[0]),
    low: choiceOf(low[0]),
    isBypassed: 0 < stages.length && stages.every(({ value }) => isBypass(value)),
    isMissing: stages.some((stage) => !isBypass(stage.value) && choiceOf(stage) === null),
    isInverted: (subPaths[0]?.inverted ?? false) !== (mainPaths[0]?.inverted ?? false),
    phase:
      phase?.value?.kind === 'phase'
        ? {
            lag_rad: phase.value.phase_rad,
            at_hz: phase.control?.kind === 'phase' ? phase.control.at_hz : null,
          }
        : null,
  };
}

/** The filter that a stage makes now: what is dialled in, or the only one that there is. */
export function choiceOf(stage: FilterStage | undefined): FilterChoice | null {
  if (stage === undefined || isBypass(stage.value)) return null;
  const { control, value } = stage;
  const told = value?.kind === 'filter' ? value : null;
  const mayBeOff = value === null && control.bypass;
  const frequency_hz = told?.frequency_hz ?? onlyChoice(control.frequency_hz, mayBeOff);
  const slope_db_oct = told?.slope_db_oct ?? onlyChoice(control.slope_db_oct, mayBeOff);
  if (frequency_hz === null || slope_db_oct === null || frequency_hz <= 0) return null;
  return { frequency_hz, slope_db_oct, family: control.family };
}

/** What nobody set counts where there is nothing to choose, not even whether the filter is on. */
function onlyChoice({ choices }: Steps, mayBeOff: boolean): number | null {
  return choices?.length === 1 && !mayBeOff ? (choices[0] ?? null) : null;
}

function isBypass(value: GovernedStage['value']): boolean {
  return value?.kind === 'bypass' || (value?.kind === 'choice' && value.choice === 'bypass');
}

function phaseOf(path: TracedPath | undefined): GovernedStage | undefined {
  return path?.stages.findLast(({ kind, control }) => kind === 'phase' && control !== null);
}

function hasPolarity({ stages }: TracedPath): boolean {
  return stages.some(({ kind, control }) => kind === 'polarity' && control !== null);
}

/** Fewer choices, or the coarser steps within both ranges. */
function narrower(steps: readonly Steps[]): Steps {
  const [first, second] = steps;
  if (first === undefined) return { min: null, max: null, step: null, choices: null };
  if (second === undefined || first === second) return first;
  if (first.choices !== null || second.choices !== null) {
    const [fewer, other] =
      (first.choices?.length ?? Infinity) <= (second.choices?.length ?? Infinity)
        ? [first, second]
        : [second, first];
    const shared = fewer.choices?.filter((choice) => reaches(choice, other)) ?? [];
    return 0 < shared.length ? { ...fewer, choices: shared } : fewer;
  }
  return {
    min: Math.max(first.min ?? 0, second.min ?? 0),
    max: Math.min(first.max ?? Infinity, second.max ?? Infinity),
    step: Math.max(first.step ?? 0, second.step ?? 0) || null,
    choices: null,
  };
}

function reaches(value: number, { min, max, choices }: Steps): boolean {
  if (choices !== null) return choices.includes(value);
  return (min ?? 0) <= value && value <= (max ?? Infinity);
}

/** More than half a cycle at the lowest crossover is never the smallest right delay. */
const MOST_DELAY_S = 0.008;
/** Finer steps than this change nothing that can be heard or measured below 160 Hz. */
const LEAST_STEP_S = 0.00005;

function delayRange({ subDelay, mainDelay }: CrossoverCase): RankingInput['delay'] {
  const sub = subDelay?.control?.kind === 'delay' ? subDelay.control.delay_s : null;
  const main = mainDelay?.control?.kind === 'delay' ? mainDelay.control.delay_s : null;
  const reach_s = (steps: Steps | null) =>
    steps === null ? 0 : Math.max(0, Math.min(MOST_DELAY_S, steps.max ?? MOST_DELAY_S));
  const step_s = Math.max(LEAST_STEP_S, sub?.step ?? main?.step ?? LEAST_STEP_S);
  const whole = (span_s: number) => Math.floor(span_s / step_s) * step_s;
  return { least_s: -whole(reach_s(main)), most_s: whole(reach_s(sub)), step_s };
}
