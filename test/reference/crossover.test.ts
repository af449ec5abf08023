// The sum of mains and subwoofer: what practice knows of it, and what the search over a device's offers must find.
import { describe, expect, test } from 'vitest';
import { phaseLag } from '../../core/acoustics/allPass.ts';
import { type AnalogueFilter, WIRE } from '../../core/acoustics/analogueFilter.ts';
import { crossoverFilter, linkwitzRiley } from '../../core/acoustics/crossoverFilter.ts';
import {
  type CrossoverOffer,
  type NaturalBranch,
  searchCrossover,
} from '../../core/acoustics/crossoverSearch.ts';
import {
  branchResponse,
  type CrossoverSum,
  crossoverSum,
} from '../../core/acoustics/crossoverSum.ts';
import {
  alignDelay,
  lossValleys,
  pairing,
  summationLoss_db,
} from '../../core/acoustics/delayAlignment.ts';
import { logGrid_hz, nearestIndex } from '../../core/acoustics/frequencyGrid.ts';
import { lowRolloff } from '../../core/acoustics/rolloff.ts';
import { expectNear } from '../support/expectNear.ts';

const LR4 = { kind: 'linkwitz_riley', order: 4 } as const;
const LR2 = { kind: 'linkwitz_riley', order: 2 } as const;
const MAIN_65 = lowRolloff({ minus6db_hz: 65, order: 4, kind: 'vented' });
const SUB_21 = lowRolloff({ minus6db_hz: 21, order: 4, kind: 'vented' });

interface Trial {
  readonly main: AnalogueFilter;
  readonly sub: AnalogueFilter;
  readonly crossover_hz: number;
  readonly highPass?: boolean;
  readonly inverted?: boolean;
  readonly subLate_s?: number;
}

function sum(trial: Trial): CrossoverSum {
  const { crossover_hz, inverted = false, subLate_s = 0 } = trial;
  const frequencies_hz = logGrid_hz(crossover_hz / 2, crossover_hz * 2, 48);
  const highPass =
    trial.highPass === false ? WIRE : crossoverFilter(LR4, 'high_pass', crossover_hz);
  const lowPass = crossoverFilter(LR4, 'low_pass', crossover_hz);
  const branch = (filter: AnalogueFilter, delay_s: number, turned: boolean) =>
    branchResponse({ filter, level_db: 0, inverted: turned, delay_s }, frequencies_hz);
  return crossoverSum({
    frequencies_hz,
    main: branch([...trial.main, ...highPass], 0, false),
    sub: branch([...trial.sub, ...lowPass], subLate_s, inverted),
    crossover_hz,
  });
}

describe('ideal loudspeakers', () => {
  test('a Linkwitz-Riley 4 leaves no ripple and no phase (Linkwitz 1976)', () => {
    const { octaves, overlap } = sum({ main: WIRE, sub: WIRE, crossover_hz: 80 });
    expectNear(
      [octaves.span_db, octaves.rms_db, overlap?.worstPhase_rad ?? 9],
      [0, 0, 0],
      1e-6,
      'dB, rad',
    );
    expectNear([octaves.from_hz, octaves.to_hz], [40, 160], 1e-9, 'Hz');
    expectNear(overlap?.equal_hz ?? 0, 80, 1e-9, 'Hz');
    expectNear(overlap?.coherence_ratio ?? 0, 1, 1e-9, '');
  });

  test('the overlap ends where the levels are 10 dB apart: (f/fc)⁴ = √10 (by hand)', () => {
    const { overlap } = sum({ main: WIRE, sub: WIRE, crossover_hz: 80 });
    const end_ratio = 10 ** (10 / 20 / 4);
    expectNear(
      [overlap?.from_hz ?? 0, overlap?.to_hz ?? 0],
      [80 / end_ratio, 80 * end_ratio],
      1.6,
      'Hz',
    );
  });

  test('inverted it has a null at the crossover, and says where', () => {
    const { octaves } = sum({ main: WIRE, sub: WIRE, crossover_hz: 80, inverted: true });
    expect(octaves.dip.level_db).toBeLessThan(-60);
    expectNear(octaves.dip.frequency_hz, 80, 0.01, 'Hz');
  });

  test('half a period late at the crossover is a null there too', () => {
    const { octaves } = sum({ main: WIRE, sub: WIRE, crossover_hz: 80, subLate_s: 0.00625 });
    expect(octaves.dip.level_db).toBeLessThan(-40);
  });

  test('swapping the sides changes the sign of the phase and nothing else', () => {
    const frequencies_hz = logGrid_hz(40, 160, 24);
    const a = branchResponse(
      { filter: MAIN_65, level_db: -1, inverted: false, delay_s: 0.002 },
      frequencies_hz,
    );
    const b = branchResponse(
      { filter: SUB_21, level_db: 0, inverted: true, delay_s: 0 },
      frequencies_hz,
    );
    const one = crossoverSum({ frequencies_hz, main: a, sub: b, crossover_hz: 80 });
    const other = crossoverSum({ frequencies_hz, main: b, sub: a, crossover_hz: 80 });
    expectNear(one.sum_db, other.sum_db, 1e-12, 'dB');
    expectNear(
      one.phaseDifference_rad,
      other.phaseDifference_rad.map((x) => -x),
      1e-12,
      'rad',
    );
  });
});

describe('a crossover on top of a roll-off at the same frequency (common practice, no source)', () => {
  const onTop = { main: MAIN_65, sub: SUB_21, crossover_hz: 65 };

  test('has a deep hole with normal polarity', () => {
    expect(sum(onTop).octaves.dip.level_db).toBeLessThan(-9);
  });
  test('has still a dip inverted', () => {
    const { dip } = sum({ ...onTop, inverted: true }).octaves;
    expect(dip.level_db).toBeLessThan(-2);
    expect(dip.level_db).toBeGreaterThan(-6);
  });
  test('is mended by the roll-off itself as the high-pass', () => {
    expect(sum({ ...onTop, highPass: false }).octaves.dip.level_db).toBeGreaterThan(-1.5);
  });
  test('is mended by a crossover twice as high', () => {
    expect(sum({ ...onTop, crossover_hz: 130 }).octaves.dip.level_db).toBeGreaterThan(-3);
  });
});

describe('alignment by delay', () => {
  const frequencies_hz = logGrid_hz(40, 160, 24);
  const main = branchResponse(
    { filter: linkwitzRiley(4, 'high_pass', 80), level_db: 0, inverted: false, delay_s: 0.0123 },
    frequencies_hz,
  );
  const sub = branchResponse(
    { filter: linkwitzRiley(4, 'low_pass', 80), level_db: 0, inverted: false, delay_s: 0.004 },
    frequencies_hz,
  );
  const pair = pairing(frequencies_hz, main, sub);
  const range = { least_s: 0, most_s: 0.03, step_s: 0.0001 };

  test('finds the very delay that was taken away, 8.3 ms, over the whole overlap', () => {
    const { delay_s, loss_db } = alignDelay(pair, false, range, 0.1);
    expectNear(delay_s * 1000, 8.3, 1e-6, 'ms');
    expectNear(loss_db, 0, 1e-6, 'dB');
  });

  test('a cycle more looks right at the crossover only', () => {
    const cycle_s = 1 / 80;
    const atCrossover = pairing(frequencies_hz, main, sub, [nearestIndex(frequencies_hz, 80)]);
    expectNear(summationLoss_db(atCrossover, false, 0.0083 + cycle_s), 0, 1e-6, 'dB');
    expect(summationLoss_db(pair, false, 0.0083 + cycle_s)).toBeGreaterThan(1);
  });

  test('of delays that are as good the smallest is taken', () => {
    const atCrossover = pairing(frequencies_hz, main, sub, [nearestIndex(frequencies_hz, 80)]);
    const long = { ...range, most_s: 0.06 };
    expect(lossValleys(atCrossover, false, long).length).toBeGreaterThanOrEqual(4);
    expectNear(alignDelay(atCrossover, false, long, 0.01).delay_s * 1000, 8.3, 0.11, 'ms');
  });

  test('answers lie on the device’s steps and inside its range', () => {
    const coarse = { least_s: -0.002, most_s: 0.0035, step_s: 0.0007 };
    const { delay_s } = alignDelay(pair, false, coarse, 0);
    const steps = (delay_s - coarse.least_s) / coarse.step_s;
    expectNear(steps, Math.round(steps), 1e-9, 'steps');
    expect(delay_s).toBeLessThanOrEqual(coarse.most_s);
  });

  test('a range of one delay gives that one; an empty range is a caller’s fault', () => {
    expect(alignDelay(pair, true, { least_s: 0, most_s: 0, step_s: 1 }, 0).delay_s).toBe(0);
    expect(() => alignDelay(pair, true, { least_s: 1, most_s: 0, step_s: 0.1 }, 0)).toThrow(
      'no delay',
    );
  });
});

describe('search', () => {
  const branch = (filter: AnalogueFilter, arrival_s: number): NaturalBranch => ({
    natural: filter,
    level_db: 0,
    arrival_s,
  });
  const offer: CrossoverOffer = {
    frequencies_hz: Array.from({ length: 19 }, (_, i) => 40 + 5 * i),
    pairs: [
      { highPass: LR2, lowPass: LR2 },
      { highPass: LR4, lowPass: LR4 },
    ],
    inverted: [false, true],
    delay: { least_s: 0, most_s: 0.02, step_s: 0.0001 },
  };

  test('scores every combination once, best first', () => {
    const ranked = searchCrossover(branch(MAIN_65, 0.006), branch(SUB_21, 0.004), offer);
    expect(ranked.length).toBe(19 * 2 * 2);
    const scores = ranked.map(({ score_db }) => score_db);
    expect(scores).toEqual([...scores].sort((a, b) => a - b));
  });

  test('with ideal loudspeakers finds the delay of the nearer one and the polarity of each slope', () => {
    const ranked = searchCrossover(branch(WIRE, 0.006), branch(WIRE, 0.004), offer);
    for (const { pair, inverted, delay_s, deviation_db } of ranked.slice(0, 38)) {
      expect(inverted).toBe(pair.lowPass?.order === 2);
      expectNear([delay_s * 1000, deviation_db], [2, 0], 1e-6, 'ms, dB');
    }
  });

  test('no combination at the same frequency beats the one it names', () => {
    const [best] = searchCrossover(branch(MAIN_65, 0.006), branch(SUB_21, 0.004), offer);
    const wide = searchCrossover(branch(MAIN_65, 0.006), branch(SUB_21, 0.004), {
      ...offer,
      frequencies_hz: [best?.frequency_hz ?? 0],
    });
    expect(wide[0]).toEqual(best);
  });

  test('mains that are −6 dB at 65 Hz are best crossed well above it', () => {
    const [best] = searchCrossover(branch(MAIN_65, 0), branch(SUB_21, 0), offer);
    expect(best?.frequency_hz).toBeGreaterThan(65 * 1.25);
  });

  test('a phase control is searched too', () => {
    const phases = [WIRE, phaseLag(Math.PI / 2, 80)];
    const ranked = searchCrossover(branch(WIRE, 0), branch(WIRE, 0.003125 - 0.00001), {
      ...offer,
      frequencies_hz: [80],
      delay: { least_s: 0, most_s: 0, step_s: 0.0001 },
      phases,
    });
    expect(ranked.length).toBe(2 * 2 * 2);
    expect(new Set(ranked.map(({ phaseIndex }) => phaseIndex))).toEqual(new Set([0, 1]));
  });
});
