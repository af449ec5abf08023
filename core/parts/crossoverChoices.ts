// Choices ready to be summed: from the start that practice names, from the ranking, and from what is dialled in.

import type { Steps } from '../../schema/model/gear.ts';
import { nearestStep, stepAtOrAbove } from '../signal/steps.ts';
import type { Dialled } from './crossoverInput.ts';
import { type Choice, overlapLevel_db } from './crossoverOutcome.ts';
import type { Ranked, RankingInput, SlopePair } from './crossoverRanking.ts';
import { type Ends, electrical, naturalOf, phaseFilter } from './crossoverSides.ts';

/** 24 dB/octave is what practice names: common practice, no source. */
const PRACTICE_SLOPE = 24;

/** The start that practice names, and how much bass its polarity gains over the other; null where it is no filter. */
export function practiceChoice(
  input: RankingInput,
): { readonly choice: Choice; readonly gain_db: number } | null {
  const f6_hz = input.main.lowEnd?.minus6db_hz;
  if (f6_hz === undefined) return null;
  const frequency_hz = stepAtOrAbove(f6_hz, input.frequency_hz);
  const nearest = (steps: Steps | null) => steps && nearestStep(PRACTICE_SLOPE, steps);
  const slopes = {
    main_db_oct: nearest(input.mainSlope_db_oct),
    sub_db_oct: nearest(input.subSlope_db_oct),
  };
  const choice = choiceFrom(input, { frequency_hz, slopes, isInverted: false });
  if (choice === null) return null;
  const turned = { ...choice, isInverted: true };
  const gain_db = overlapLevel_db(turned) - overlapLevel_db(choice);
  return input.canInvert && 0 < gain_db
    ? { choice: turned, gain_db }
    : { choice, gain_db: -gain_db };
}

/** A candidate of the ranking. */
export function rankedChoice(input: RankingInput, ranked: Ranked): Choice | null {
  return choiceFrom(input, {
    frequency_hz: ranked.frequency_hz,
    slopes: ranked.slopes,
    isInverted: ranked.inverted,
    phase_rad: ranked.phase_rad,
    subDelay_s: ranked.delay_s === 0 ? 0 : ranked.delay_s,
  });
}

function choiceFrom(
  input: RankingInput,
  told: {
    readonly frequency_hz: number;
    readonly slopes: SlopePair;
    readonly isInverted: boolean;
    readonly phase_rad?: number | null;
    readonly subDelay_s?: number;
  },
): Choice | null {
  const { frequency_hz, slopes, isInverted } = told;
  const filter = (family: RankingInput['mainFamily'], slope_db_oct: number | null) =>
    family && slope_db_oct !== null ? { frequency_hz, slope_db_oct, family } : null;
  const high = filter(input.mainFamily, slopes.main_db_oct);
  const low = filter(input.subFamily, slopes.sub_db_oct);
  const main = electrical(high, 'high_pass');
  const sub = electrical(low, 'low_pass');
  const either = high ?? low;
  if (main === null || sub === null || either === null) return null;
  const phase_rad = told.phase_rad ?? null;
  const turn =
    phase_rad === null ? [] : phaseFilter(phase_rad, input.phases?.at_hz ?? frequency_hz);
  return {
    filter: either,
    main: [...main, ...naturalOf(input.main)],
    sub: [...sub, ...turn, ...naturalOf(input.sub)],
    isInverted,
    phase_rad,
    subDelay_s: told.subDelay_s ?? 0,
  };
}

/** What is dialled in; null where nothing is, or only bypass. */
export function dialledChoice(
  mainEnds: Ends,
  subsEnds: Ends,
  { high, low, isMissing, isInverted, phase }: Dialled,
  subDelay_s: number,
): Choice | null {
  const filter = high ?? low;
  const main = electrical(high, 'high_pass');
  const sub = electrical(low, 'low_pass');
  if (filter === null || isMissing || main === null || sub === null) return null;
  const turn = phase ? phaseFilter(phase.lag_rad, phase.at_hz ?? filter.frequency_hz) : [];
  return {
    filter,
    main: [...main, ...naturalOf(mainEnds)],
    sub: [...sub, ...turn, ...naturalOf(subsEnds)],
    isInverted,
    phase_rad: phase?.lag_rad ?? null,
    subDelay_s,
  };
}
