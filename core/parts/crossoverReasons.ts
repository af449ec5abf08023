// Reasons in plain words for each crossover outcome: what the start is based on, what the sum does, what to mind.

import type { CrossoverOutcome } from '../setup.ts';
import { showFor } from '../show.ts';
import { costReasons } from './crossoverCosts.ts';
import type { Dialled } from './crossoverInput.ts';
import type { RankingInput } from './crossoverRanking.ts';

/** Frequencies, levels, times and angles are written alike in every file. */
const show = showFor({ length: 'metre', temperature: 'celsius', mass: 'kilogram' });

/** Above this a sub begins to be heard as a place: common practice, no source. */
const LOCATED_HZ = 80;
/** A difference of ripple that is worth a word. */
const WORTH_SAYING_DB = 1;

/** @param gain_db what the polarity chosen gains over the other one, in the overlap */
export function practiceReasons(
  start: CrossoverOutcome,
  { main, canInvert }: RankingInput,
  gain_db: number,
  best: CrossoverOutcome | undefined,
): readonly string[] {
  const f6_hz = main.lowEnd?.minus6db_hz ?? start.filter.frequency_hz;
  const reasons = [
    `the mains are -6 dB at ${show.frequency(f6_hz)}: ${filterText(start)} is where practice begins (common practice, no source)`,
  ];
  if (canInvert) {
    reasons.push(
      `polarity normal first, then the one that gives more bass at the seat: predicted ${start.polarity}, by ${show.level(gain_db)}`,
    );
  }
  reasons.push(sumText(start));
  if (best && WORTH_SAYING_DB < start.ripple_db - best.ripple_db) {
    reasons.push(
      `the sum is ${show.level(start.ripple_db - best.ripple_db)} less even than with ${filterText(best)}, ${best.polarity}: the electrical high-pass comes on top of the mains' own roll-off`,
    );
  }
  if (best?.cost && start.cost)
    reasons.push(...costReasons(start.cost, best.cost, filterText(best)));
  return reasons;
}

export function rankedReasons(
  outcome: CrossoverOutcome,
  start: CrossoverOutcome | null,
): readonly string[] {
  const reasons = [sumText(outcome), phaseText(outcome)];
  if (outcome.subDelay_s !== 0) reasons.push(delayText(outcome.subDelay_s));
  if (outcome.phase_rad !== undefined) {
    reasons.push(`with the phase control at ${show.angle(outcome.phase_rad)}`);
  }
  const less_db = start ? start.ripple_db - outcome.ripple_db : 0;
  if (start && WORTH_SAYING_DB < less_db) {
    reasons.push(`${show.level(less_db)} more even than the start that practice names`);
  }
  if (start?.cost && outcome.cost)
    reasons.push(...costReasons(outcome.cost, start.cost, filterText(start)));
  if (LOCATED_HZ < outcome.filter.frequency_hz) {
    reasons.push(
      `above ${show.frequency(LOCATED_HZ)} a subwoofer begins to be heard as a place (common practice, no source)`,
    );
  }
  return reasons;
}

export function currentReasons(
  outcome: CrossoverOutcome,
  { high, low }: Dialled,
  difference_s: number | null,
): readonly string[] {
  const reasons = [sumText(outcome), phaseText(outcome)];
  if (difference_s === null) {
    reasons.push('arrivals are not known and were taken as together');
  } else if (1e-4 < Math.abs(difference_s)) {
    const later = difference_s < 0 ? 'before' : 'behind';
    reasons.push(`the subwoofer arrives ${show.time(Math.abs(difference_s))} ${later} the mains`);
  }
  if (high && low && high.frequency_hz !== low.frequency_hz) {
    reasons.push(
      `the high-pass stands at ${show.frequency(high.frequency_hz)}, the low-pass at ${show.frequency(low.frequency_hz)}`,
    );
  }
  return reasons;
}

/** "75 Hz, 24 dB/oct". */
export function filterText({ filter }: Pick<CrossoverOutcome, 'filter'>): string {
  return `${show.frequency(filter.frequency_hz)}, ${filter.slope_db_oct} dB/oct`;
}

function sumText({ dip, bump }: CrossoverOutcome): string {
  return `from an octave below to an octave above the sum lies between ${show.level(dip.level_db)} (${show.frequency(dip.frequency_hz)}) and ${show.level(bump.level_db)} (${show.frequency(bump.frequency_hz)})`;
}

function phaseText({ worstPhase_rad, overlap_hz: [from_hz, to_hz] }: CrossoverOutcome): string {
  return `mains and subwoofer are at most ${show.angle(Math.abs(worstPhase_rad))} apart from ${show.frequency(from_hz)} to ${show.frequency(to_hz)}`;
}

function delayText(subDelay_s: number): string {
  const who = 0 < subDelay_s ? 'the subwoofer waits' : 'the mains wait';
  return `${who} ${show.time(Math.abs(subDelay_s))} beyond equal arrival`;
}
