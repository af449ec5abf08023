// Part of Setup: for each crossover the start that practice names, what is dialled in, and what the acoustic sum says.

import type { Room } from '../../schema/model/room.ts';
import { rolloffPhaseSpread_rad } from '../acoustics/rolloff.ts';
import type { CrossoverFigures, CrossoverOutcome, Note } from '../setup.ts';
import type { Heard } from '../signal/heard.ts';
import type { TracedPath } from '../signal/traced.ts';
import { type CrossoverCase, crossoverCases } from './crossoverCase.ts';
import { dialledChoice, practiceChoice, rankedChoice } from './crossoverChoices.ts';
import { costOf } from './crossoverCosts.ts';
import { type Dialled, dialledOf, rankingInput, subEnds } from './crossoverInput.ts';
import { type Choice, outcomeOf, overlapLevel_db } from './crossoverOutcome.ts';
import {
  type Ranked,
  type RankingInput,
  rankCrossovers,
  rankOf,
  type SlopePair,
} from './crossoverRanking.ts';
import { currentReasons, practiceReasons, rankedReasons } from './crossoverReasons.ts';
import { type Ends, naturalLowEnd, type PhaseOf, phaseOf } from './crossoverSides.ts';
import { memoMany, memoNamed, memoPart } from './memo.ts';

export interface CrossoversPart {
  readonly crossovers: readonly CrossoverFigures[];
  /** One for each of `crossovers`, in the same order. */
  readonly judged: readonly JudgedCase[];
  readonly notes: readonly Note[];
}

/** A case with how what is dialled in compares with the best, for advice: nothing in it asks when sound arrives. */
export interface JudgedCase {
  readonly of: CrossoverCase;
  /** The best-ranked choice, else the start that practice names. */
  readonly best: CrossoverOutcome | null;
  /** As `CrossoverFigures.hasPhase`. */
  readonly hasPhase: boolean;
  /** By how much the dialled filter ranks below the best one, dB; null where nothing comparable is dialled in. */
  readonly behindBest_db: number | null;
}

export type CrossoversOf = Pick<Room, 'speakers' | 'subwoofers'>;
export type WorkOutCrossovers = (
  room: CrossoversOf,
  paths: readonly TracedPath[],
  heard: readonly Heard[],
) => CrossoversPart;

/** A worker that searches a crossover again only when what it offers or what it joins has changed. */
export function createCrossoversPart(): WorkOutCrossovers {
  const rank = memoMany(rankCrossovers);
  const suggest = memoMany((input: RankingInput) => suggestions(input, rank(input)));
  const look = memoMany(currentOutcome);
  const judge = memoMany((input: RankingInput, frequency_hz: number, slopes: SlopePair) =>
    judgementOf(input, rank(input)[0], rankOf(input, frequency_hz, slopes)),
  );
  const otherPolarity = memoMany(otherPolarity_db);
  /** All of a case that does not ask when its sound arrives. */
  const looked = (of: CrossoverCase): LookedAt => {
    const input = rankingInput(of);
    const dialled = dialledOf(of);
    const suggested = input ? suggest(input) : NOTHING;
    const filter = dialled.isMissing ? null : (dialled.high ?? dialled.low);
    const judgement =
      input && filter ? judge(input, filter.frequency_hz, slopesOf(dialled)) : NOT_JUDGED;
    const warning = input ? caveat(of, input, suggested.ranked[0] ?? suggested.practice) : null;
    return { of, input, dialled, suggested, judgement, warning };
  };
  const known = memoPart(
    ['speakers', 'subwoofers'],
    (room: CrossoversOf, paths: readonly TracedPath[]) => {
      const cases = crossoverCases(room, paths).map(looked);
      const notes = cases.flatMap(({ of, input }) => (input === null ? [rolloffNote(of)] : []));
      return { cases, judged: cases.map(judgedCase), notes };
    },
  );
  const figuresOf = memoNamed((one: LookedAt, difference_s: number | null): CrossoverFigures => {
    const { of, input, dialled, suggested, judgement } = one;
    const settled_s = of.subDelay || of.mainDelay ? 0 : (difference_s ?? 0);
    const other_db = input ? otherPolarity(input.main, subEnds(of), dialled, settled_s) : null;
    return {
      ...(other_db === null ? {} : { otherPolarity_db: other_db }),
      ...(judgement.aligned === null ? {} : { aligned: judgement.aligned }),
      device: of.device,
      set: of.set,
      path: of.path,
      mains: of.mains.map(({ id }) => id),
      subs: of.subs.map(({ id }) => id),
      mainsMinus6db_hz: input?.main.lowEnd?.minus6db_hz ?? null,
      current: input ? look(input.main, subEnds(of), dialled, difference_s) : null,
      bypassed: dialled.isBypassed,
      practice: suggested.practice,
      ranked: suggested.ranked,
      caveat: one.warning,
      ...(hasPhase(one) ? { hasPhase: true } : {}),
    };
  });
  return (room, paths, heard) => {
    const { cases, judged, notes } = known(room, paths);
    const crossovers = cases.map((one, index) =>
      figuresOf(`${index}`, one, arrivalDifference_s(one.of, heard)),
    );
    return { crossovers, judged, notes };
  };
}

function judgedCase(one: LookedAt): JudgedCase {
  const { of, suggested, judgement } = one;
  return {
    of,
    best: suggested.ranked[0] ?? suggested.practice,
    behindBest_db: judgement.behindBest_db,
    hasPhase: hasPhase(one),
  };
}

function hasPhase({ of, input }: LookedAt): boolean {
  return input !== null && phaseOfCase(of) === 'file';
}

interface LookedAt {
  readonly of: CrossoverCase;
  /** null where the mains' roll-off is not recorded. */
  readonly input: RankingInput | null;
  readonly dialled: Dialled;
  readonly suggested: Suggestions;
  readonly judgement: Judgement;
  readonly warning: string | null;
}

interface Suggestions {
  readonly practice: CrossoverOutcome | null;
  readonly ranked: readonly CrossoverOutcome[];
}

const NOTHING: Suggestions = { practice: null, ranked: [] };

function suggestions(input: RankingInput, ranks: readonly Ranked[]): Suggestions {
  const practice = practiceChoice(input);
  const costed = (choice: Choice) => withCost(outcomeOf(choice, []), input.main, input.sub);
  const start = practice && costed(practice.choice);
  const best = ranks.flatMap((ranked) => {
    const choice = rankedChoice(input, ranked);
    return choice ? [costed(choice)] : [];
  });
  return {
    practice: start && {
      ...start,
      reasons: practiceReasons(start, input, practice.gain_db, best[0]),
    },
    ranked: best.map((outcome) => ({ ...outcome, reasons: rankedReasons(outcome, start) })),
  };
}

function withCost(outcome: CrossoverOutcome, main: Ends, sub: Ends): CrossoverOutcome {
  return { ...outcome, cost: costOf(outcome, main.maxLevel ?? null, sub.maxLevel ?? null) };
}

interface Judgement {
  readonly behindBest_db: number | null;
  readonly aligned: CrossoverOutcome | null;
}

const NOT_JUDGED: Judgement = { behindBest_db: null, aligned: null };

/** How far the dialled filter ranks behind the best, and what it comes to at its own best polarity and delay. */
function judgementOf(
  input: RankingInput,
  best: Ranked | undefined,
  current: Ranked | null,
): Judgement {
  if (best === undefined || current === null) return NOT_JUDGED;
  const choice = rankedChoice(input, current);
  const outcome = choice && withCost(outcomeOf(choice, []), input.main, input.sub);
  return {
    behindBest_db: current.total_db - best.total_db,
    aligned: outcome && { ...outcome, reasons: rankedReasons(outcome, null) },
  };
}

function slopesOf({ high, low }: Dialled): SlopePair {
  return { main_db_oct: high?.slope_db_oct ?? null, sub_db_oct: low?.slope_db_oct ?? null };
}

/** As dialled in, with the arrivals as they stand; null where nothing is dialled in, or only bypass. */
function currentOutcome(
  main: Ends,
  sub: Ends,
  dialled: Dialled,
  difference_s: number | null,
): CrossoverOutcome | null {
  const choice = dialledChoice(main, sub, dialled, difference_s ?? 0);
  if (choice === null) return null;
  const outcome = withCost(outcomeOf(choice, []), main, sub);
  return { ...outcome, reasons: currentReasons(outcome, dialled, difference_s) };
}

function otherPolarity_db(
  main: Ends,
  sub: Ends,
  dialled: Dialled,
  difference_s: number,
): number | null {
  const choice = dialledChoice(main, sub, dialled, difference_s);
  if (choice === null) return null;
  const other = { ...choice, isInverted: !choice.isInverted };
  return overlapLevel_db(other) - overlapLevel_db(choice);
}

/**
 * By how much the subs arrive behind the mains at the reference seat, as things are dialled in; null where an arrival is not
 * known. Rounded to a microsecond, so that a hair's breadth of movement does not ask for a new sum.
 */
function arrivalDifference_s(
  { mains, subs, set }: CrossoverCase,
  heard: readonly Heard[],
): number | null {
  const mean_s = (ids: readonly { readonly id: string }[]) => {
    const here = heard.filter((way) => way.set === set && ids.some(({ id }) => id === way.source));
    const arrived_s = here.flatMap(({ fixed_s, ownDelay_s }) =>
      fixed_s === null ? [] : [fixed_s + ownDelay_s],
    );
    return arrived_s.length === 0 || arrived_s.length < here.length
      ? null
      : arrived_s.reduce((sum, at_s) => sum + at_s, 0) / arrived_s.length;
  };
  const main_s = mean_s(mains);
  const sub_s = mean_s(subs);
  return main_s === null || sub_s === null ? null : Math.round((sub_s - main_s) * 1e6) / 1e6;
}

/** The least that is known of any main or subwoofer. */
function phaseOfCase({ mains, subs }: CrossoverCase): PhaseOf {
  const all = [...mains, ...subs].map(({ gear }) =>
    phaseOf(gear ?? { lowEnd: null, highEnd: null }),
  );
  return all.includes('model') ? 'model' : all.includes('minimum') ? 'minimum' : 'file';
}

const CAVEATS: Readonly<Record<Exclude<PhaseOf, 'model'>, string>> = {
  file: 'Phase of mains and subwoofer is that of their response files; the room is not in it. Hold it against a measurement of both together.',
  minimum:
    'Starting values: of mains and subwoofer the level is measured, the phase is the least that goes with it, and the room is not in it. Final only after a measurement of mains and subwoofer together.',
};

function caveat(
  of: CrossoverCase,
  { main, sub }: RankingInput,
  outcome: CrossoverOutcome | null,
): string {
  const phase = phaseOfCase(of);
  if (phase !== 'model') return CAVEATS[phase];
  const at_hz = outcome?.filter.frequency_hz ?? null;
  const isModelled = main.lowEnd !== null && main.lowEnd.response === undefined;
  const spread_rad =
    isModelled && main.lowEnd && at_hz !== null
      ? rolloffPhaseSpread_rad(naturalLowEnd(main.lowEnd), at_hz)
      : 0;
  const degrees = Math.round((spread_rad * 180) / Math.PI);
  const spread = 0 < degrees ? ` (±${degrees}° here)` : '';
  const flat =
    sub.lowEnd === null
      ? ' The roll-off of the subwoofer is not recorded and was taken as flat.'
      : '';
  return `Starting values: phase from a data sheet is a guess${spread}, and the room is not in it. Final only after a measurement of mains and subwoofer together.${flat}`;
}

function rolloffNote({ mains, path }: CrossoverCase): Note {
  return {
    path,
    message: `the roll-off (low_end) of ${mains.map(({ id }) => id).join(', ')} is not recorded: no crossover can be suggested`,
  };
}
