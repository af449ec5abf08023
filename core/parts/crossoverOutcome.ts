// What one choice of crossover comes to: the sum of main and sub, its dip and bump, its phase, its curve.

import type { AnalogueFilter } from '../acoustics/analogueFilter.ts';
import { branchResponse, type CrossoverSum, crossoverSum } from '../acoustics/crossoverSum.ts';
import { logGrid_hz, nearestIndex } from '../acoustics/frequencyGrid.ts';
import type { CrossoverOutcome, FilterChoice } from '../setup.ts';

/** One choice, ready to be summed; `main` and `sub` hold electrical filters and natural roll-offs. */
export interface Choice {
  readonly filter: FilterChoice;
  readonly main: AnalogueFilter;
  readonly sub: AnalogueFilter;
  readonly isInverted: boolean;
  readonly phase_rad: number | null;
  /** Of the sub against the mains, at the seat. */
  readonly subDelay_s: number;
}

/** Two octaves to either side, sixty steps. */
const POINTS_PER_OCTAVE = 15;

/** The outcome of a choice, with the reasons given. */
export function outcomeOf(choice: Choice, reasons: readonly string[]): CrossoverOutcome {
  const { filter, isInverted, phase_rad, subDelay_s } = choice;
  const sum = sumOfChoice(choice);
  const centre = nearestIndex(sum.frequencies_hz, filter.frequency_hz);
  const worst = sum.overlap ? nearestIndex(sum.frequencies_hz, sum.overlap.worstPhase_hz) : centre;
  return {
    filter,
    polarity: isInverted ? 'inverted' : 'normal',
    ...(phase_rad === null ? {} : { phase_rad }),
    subDelay_s,
    ripple_db: finite(sum.octaves.span_db),
    dip: { ...sum.octaves.dip, level_db: finite(sum.octaves.dip.level_db) },
    bump: sum.octaves.bump,
    phaseAtCrossover_rad: mainAgainstSub(sum, centre),
    worstPhase_rad: mainAgainstSub(sum, worst),
    overlap_hz: sum.overlap
      ? [sum.overlap.from_hz, sum.overlap.to_hz]
      : [filter.frequency_hz, filter.frequency_hz],
    curve: {
      frequency_hz: rounded(sum.frequencies_hz, 100),
      main_db: rounded(sum.main_db, 1000),
      sub_db: rounded(sum.sub_db, 1000),
      sum_db: rounded(sum.sum_db, 1000),
    },
    reasons,
  };
}

/** Mean power of the sum where both sides count, dB: what "more bass at the seat" is judged by. */
export function overlapLevel_db(choice: Choice): number {
  const { frequencies_hz, sum_db, overlap } = sumOfChoice(choice);
  const from_hz = overlap?.from_hz ?? choice.filter.frequency_hz / Math.SQRT2;
  const to_hz = overlap?.to_hz ?? choice.filter.frequency_hz * Math.SQRT2;
  const inside = [...sum_db].filter((_, i) => {
    const frequency_hz = frequencies_hz[i] ?? 0;
    return from_hz * 0.999 <= frequency_hz && frequency_hz <= to_hz * 1.001;
  });
  const power = inside.reduce((total, level_db) => total + 10 ** (level_db / 10), 0);
  return 10 * Math.log10(power / inside.length);
}

function sumOfChoice({ filter, main, sub, isInverted, subDelay_s }: Choice): CrossoverSum {
  const crossover_hz = filter.frequency_hz;
  const grid_hz = logGrid_hz(crossover_hz / 4, crossover_hz * 4, POINTS_PER_OCTAVE);
  const level = { level_db: 0 };
  return crossoverSum({
    frequencies_hz: grid_hz,
    main: branchResponse({ ...level, filter: main, inverted: false, delay_s: 0 }, grid_hz),
    sub: branchResponse(
      { ...level, filter: sub, inverted: isInverted, delay_s: subDelay_s },
      grid_hz,
    ),
    crossover_hz,
  });
}

function mainAgainstSub({ phaseDifference_rad }: CrossoverSum, index: number): number {
  const turned_rad = -(phaseDifference_rad[index] ?? 0);
  return turned_rad === 0 ? 0 : turned_rad;
}

/** Levels of perfect nulls are minus infinity, which JSON does not know. */
const DEEPEST_DB = -120;

function finite(level_db: number): number {
  return Math.min(-DEEPEST_DB, Math.max(DEEPEST_DB, level_db));
}

function rounded(values: Float64Array, perUnit: number): readonly number[] {
  return Array.from(values, (value) => Math.round(Math.max(DEEPEST_DB, value) * perUnit) / perUnit);
}
