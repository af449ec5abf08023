// Crossovers: sums of known filters with known answers, the start that practice names, and a ranking that is never worse than trying all.

import { describe, expect, test } from 'vitest';
import type { CrossoverOutcome } from '../../../core/setup.ts';
import type { Control, FilterFamily, Gear } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { point } from '../../support/rooms.ts';
import {
  BYPASS,
  CROSSOVER,
  choice,
  choices,
  crossover,
  MAIN,
  ms,
  POLARITY,
  SUB,
  subRoom,
  subRoomWith,
} from '../../support/wiredRooms.ts';
import { adviceAt, findingsWith, worked } from '../../support/worked.ts';

const NO_LATENCY = [{ port: '*', latency_s: 0 }];
/** So low, and for the subwoofer so high, that it plays no part near 80 Hz. */
const FULL_RANGE = {
  lowEnd: { minus6db_hz: 0.5, slope_db_oct: 6, kind: null, protection: null, responseFile: null },
  highEnd: null,
} as const;

/** Main and subwoofer at the same distance without latencies; ends and crossover as told. */
function alignedRoom(
  values: Parameters<typeof subRoomWith>[0],
  mainEnds: Pick<Gear, 'lowEnd'> = FULL_RANGE,
  control: Control = CROSSOVER,
  subEnds: Pick<Gear, 'lowEnd' | 'highEnd'> = FULL_RANGE,
): Room {
  const room = subRoomWith(values);
  const controls = SUB.controls.map((one) => (one.name === 'crossover' ? control : one));
  return {
    ...room,
    speakers: room.speakers.map((one) => ({
      ...one,
      gear: { ...MAIN, ...mainEnds, latency_s: NO_LATENCY },
    })),
    subwoofers: room.subwoofers.map((one) => ({
      ...one,
      at: point(2.5, 4 - 2.15, 1.2),
      gear: { ...SUB, ...subEnds, controls, latency_s: NO_LATENCY },
    })),
  };
}

function current(room: Room): CrossoverOutcome {
  const outcome = worked(room).crossovers[0]?.current;
  if (!outcome) throw new Error('no crossover is dialled in');
  return outcome;
}

/** The level of the sum at the frequency of the grid that is nearest. */
function sumAt({ curve }: CrossoverOutcome, frequency_hz: number): number {
  const apart = curve.frequency_hz.map((one) => Math.abs(Math.log(one / frequency_hz)));
  return curve.sum_db[apart.indexOf(Math.min(...apart))] ?? NaN;
}

describe('sums of the electrical filters alone', () => {
  // Linkwitz, J. Audio Eng. Soc. 24 (1976) 2: fourth order sums flat in phase, second order with one side inverted.
  test('Linkwitz-Riley of 24 dB/oct sums flat', () => {
    const outcome = current(alignedRoom({ crossover: crossover(80) }));
    expectNear(outcome.ripple_db, 0, 0.02, 'dB');
    expectNear(Math.abs(outcome.phaseAtCrossover_rad), 0, 0.02, 'rad');
  });

  test('Linkwitz-Riley of 12 dB/oct: a hole as it is, flat with one side inverted', () => {
    const normal = current(alignedRoom({ crossover: crossover(80, 12) }));
    expect(normal.dip.level_db).toBeLessThan(-30);
    const inverted = current(
      alignedRoom({ crossover: crossover(80, 12), polarity: choice('inverted') }),
    );
    expectNear(inverted.ripple_db, 0, 0.02, 'dB');
    expect(inverted.polarity).toBe('inverted');
  });

  // 20 lg |cos(π f τ)|: by hand, 80 Hz.
  test.each([
    { delay_ms: 1, level_db: -0.277 },
    { delay_ms: 2, level_db: -1.153 },
    { delay_ms: 3, level_db: -2.746 },
  ])('$delay_ms ms too late costs $level_db dB at 80 Hz', ({ delay_ms, level_db }) => {
    const outcome = current(
      alignedRoom({ crossover: crossover(80), 'driver:delay': ms(delay_ms) }),
    );
    expectNear(sumAt(outcome, 80), level_db, 0.02, 'dB');
    expectNear(outcome.subDelay_s, delay_ms / 1000, 1e-6, 's');
    // The sub lags, so that the main leads by 2π f τ.
    expectNear(outcome.phaseAtCrossover_rad, 2 * Math.PI * 80 * (delay_ms / 1000), 0.02, 'rad');
  });
});

/** A crossover of one frequency and slope. */
function only(family: FilterFamily, frequency_hz: number, slope_db_oct: number): Control {
  return {
    ...CROSSOVER,
    family,
    frequency_hz: choices(frequency_hz),
    slope_db_oct: choices(slope_db_oct),
  } as Control;
}

test('a sealed box of Q 0.707 and an electrical second order are an acoustic Linkwitz-Riley (product of the two)', () => {
  // −6 dB of a second-order Butterworth at 80 Hz: 80 / (10^0.6 − 1)^(1/4) Hz, by hand.
  const minus6db_hz = 80 / (10 ** 0.6 - 1) ** 0.25;
  const sealed = {
    lowEnd: {
      minus6db_hz,
      slope_db_oct: 12,
      kind: 'sealed',
      protection: null,
      responseFile: null,
    },
  } as const;
  // The subwoofer's own upper end does the same on its side.
  const upper = {
    ...FULL_RANGE,
    highEnd: { minus6db_hz: 80 * (10 ** 0.6 - 1) ** 0.25, slope_db_oct: 12 },
  };
  const room = alignedRoom(
    { crossover: crossover(80, 12) },
    sealed,
    only('butterworth', 80, 12),
    upper,
  );
  expectNear(current(room).ripple_db, 0, 0.03, 'dB');
});

describe('mains that are -6 dB at 65 Hz, natural 24 dB/oct', () => {
  const setup = worked(subRoom());
  const figures = setup.crossovers[0];

  test('practice begins at 65 Hz, 24 dB/oct (common practice, no source)', () => {
    expect(figures?.mainsMinus6db_hz).toBe(65);
    expect(figures?.practice?.filter).toEqual({
      frequency_hz: 65,
      slope_db_oct: 24,
      family: 'linkwitz_riley',
    });
  });

  test('a device without 65 Hz begins at its next step above', () => {
    const tens = { ...CROSSOVER, frequency_hz: choices(50, 60, 70, 80) } as Control;
    const room = alignedRoom({}, { lowEnd: MAIN.lowEnd }, tens);
    expect(worked(room).crossovers[0]?.practice?.filter.frequency_hz).toBe(70);
  });

  test('its polarity is the one that gives more bass, and the reasons say so', () => {
    const { practice } = figures ?? {};
    expect(practice?.reasons.join('; ')).toMatch(
      /polarity normal first.*predicted inverted, by \d/,
    );
    expect(practice?.polarity).toBe('inverted');
  });

  // At one frequency both sides lag and lead by known amounts: electrical and natural fourth order of the same corner turn the
  // main by 180° and about 180° more against the low-pass, so that normal polarity cancels (product of the two high-passes).
  test('with the electrical filter on top of the roll-off normal polarity has a deep hole, inverted still a dip', () => {
    const at65 = { crossover: crossover(65), 'driver:delay': ms(0) };
    const room = alignedRoom(at65, { lowEnd: MAIN.lowEnd });
    expect(current(room).dip.level_db).toBeLessThan(-6);
    const turned = alignedRoom({ ...at65, polarity: choice('inverted') }, { lowEnd: MAIN.lowEnd });
    expect(current(turned).dip.level_db).toBeLessThan(-1);
    expect(current(turned).dip.level_db).toBeGreaterThan(-4);
  });

  test('the ranking is more even than the start, says by how much, and waits for a measurement', () => {
    const [best] = figures?.ranked ?? [];
    expect(best?.ripple_db).toBeLessThan(figures?.practice?.ripple_db ?? 0);
    expect(figures?.caveat).toMatch(/guess.*measurement/);
    expect(figures?.practice?.reasons.join('; ')).toMatch(/dB less even than with/);
  });
});

/** |H| and phase of filters written out from their definition, e^{+jωt}: an independent sum for the comparison below. */
function butterworth4(f: number, corner: number, side: 'high' | 'low'): [number, number] {
  const x = f / corner;
  let [re, im] = [1, 0];
  for (const k of [1, 2]) {
    const damping = 2 * Math.sin(((2 * k - 1) * Math.PI) / 8);
    // 1 / (1 − x² + j damping x), times (jx)² for the high-pass
    const [a, b] = [1 - x * x, damping * x];
    const norm = a * a + b * b;
    const gain = side === 'high' ? -x * x : 1;
    [re, im] = [(gain * (re * a + im * b)) / norm, (gain * (im * a - re * b)) / norm];
  }
  return [re, im];
}

function linkwitzRiley4(f: number, corner: number, side: 'high' | 'low'): [number, number] {
  const x = f / corner;
  const [a, b] = [1 - x * x, Math.SQRT2 * x];
  const norm = a * a + b * b;
  const gain = side === 'high' ? -x * x : 1;
  const [re, im] = [(gain * a) / norm, (-gain * b) / norm];
  return [re * re - im * im, 2 * re * im];
}

function times([a, b]: [number, number], [c, d]: [number, number]): [number, number] {
  return [a * c - b * d, a * d + b * c];
}

/** Main and subwoofer at a frequency, in pressure re the level far above. */
function sides(f: number, crossover_hz: number, corner_hz: number, delay_s: number) {
  const main = times(linkwitzRiley4(f, crossover_hz, 'high'), butterworth4(f, corner_hz, 'high'));
  const angle = -2 * Math.PI * f * delay_s;
  const sub = times(linkwitzRiley4(f, crossover_hz, 'low'), [Math.cos(angle), Math.sin(angle)]);
  return { main, sub };
}

/** Largest minus smallest level from an octave below to an octave above, on a fine grid. */
function ripple_db(crossover_hz: number, corner_hz: number, inverted: boolean, delay_s: number) {
  const sign = inverted ? -1 : 1;
  const levels_db = Array.from({ length: 61 }, (_, i) => {
    const { main, sub } = sides(crossover_hz * 2 ** (i / 30 - 1), crossover_hz, corner_hz, delay_s);
    return 20 * Math.log10(Math.hypot(main[0] + sign * sub[0], main[1] + sign * sub[1]));
  });
  return Math.max(...levels_db) - Math.min(...levels_db);
}

/** What phase costs where the two levels are within 10 dB: rms of 20 lg((|M| + |S|) / |M + S|). */
function loss_db(crossover_hz: number, corner_hz: number, inverted: boolean, delay_s: number) {
  const sign = inverted ? -1 : 1;
  const losses_db = Array.from({ length: 121 }, (_, i) => {
    const { main, sub } = sides(crossover_hz * 2 ** (i / 60 - 1), crossover_hz, corner_hz, delay_s);
    const [m, s] = [Math.hypot(...main), Math.hypot(...sub)];
    const sum = Math.hypot(main[0] + sign * sub[0], main[1] + sign * sub[1]);
    return Math.abs(20 * Math.log10(m / s)) <= 10 ? 20 * Math.log10((m + s) / sum) : null;
  }).filter((one) => one !== null);
  return Math.sqrt(losses_db.reduce((sum, one) => sum + one ** 2, 0) / losses_db.length);
}

describe('against brute force over complex sums written out from the filters’ definitions', () => {
  // −6 dB of a fourth-order Butterworth: corner / (10^0.6 − 1)^(1/8).
  const corner_hz = 65 * (10 ** 0.6 - 1) ** 0.125;
  const room = alignedRoom({ crossover: crossover(75) }, { lowEnd: MAIN.lowEnd });
  const figures = worked(room).crossovers[0];

  test('each outcome is what the written-out sum gives', () => {
    for (const outcome of [figures?.practice, ...(figures?.ranked ?? [])]) {
      if (outcome?.filter.slope_db_oct !== 24) continue;
      const wanted_db = ripple_db(
        outcome.filter.frequency_hz,
        corner_hz,
        outcome.polarity === 'inverted',
        outcome.subDelay_s,
      );
      expectNear(outcome.ripple_db, wanted_db, 0.1, 'dB');
    }
  });

  test('no delay within half a cycle and no polarity holds the phases together 0.15 dB better', () => {
    const best = figures?.ranked[0];
    const at_hz = best?.filter.frequency_hz ?? NaN;
    const chosen_db = loss_db(
      at_hz,
      corner_hz,
      best?.polarity === 'inverted',
      best?.subDelay_s ?? NaN,
    );
    let least_db = Infinity;
    for (const inverted of [false, true]) {
      for (let delay_us = -8000; delay_us <= 8000; delay_us += 50) {
        if (0.5e6 < at_hz * Math.abs(delay_us)) continue;
        least_db = Math.min(least_db, loss_db(at_hz, corner_hz, inverted, delay_us * 1e-6));
      }
    }
    expect(least_db).toBeLessThan(0.5);
    expect(chosen_db).toBeLessThan(least_db + 0.15);
  });
});

describe('what is dialled in', () => {
  test('bypass is bypass', () => {
    const [figures] = worked(subRoomWith({ crossover: BYPASS })).crossovers;
    expect(figures).toMatchObject({ bypassed: true, current: null });
  });

  test('advice on the polarity is the one that gives more, and the finding agrees', () => {
    const setup = worked(subRoom());
    const gain_db = setup.crossovers[0]?.otherPolarity_db ?? NaN;
    expect(gain_db).toBeGreaterThan(3);
    expect(adviceAt(setup, 'settings.sub.polarity').dialIn).toBe('inverted');
    expect(findingsWith(setup, 'polarity/other')).toHaveLength(1);
    const turned = worked(subRoomWith({ polarity: choice('inverted') }));
    expectNear(turned.crossovers[0]?.otherPolarity_db ?? NaN, -gain_db, 1e-9, 'dB');
    expect(findingsWith(turned, 'polarity/other')).toEqual([]);
  });

  test('no roll-off, no suggestion, and a note', () => {
    const room = subRoom();
    const setup = worked({
      ...room,
      speakers: room.speakers.map((one) => ({ ...one, gear: { ...MAIN, lowEnd: null } })),
    });
    expect(setup.crossovers[0]).toMatchObject({ current: null, practice: null, ranked: [] });
    expect(setup.notes.map(({ message }) => message).join()).toMatch(/roll-off.*left, right/);
  });
});

test('a subwoofer without delay but with a phase control is advised its phase', () => {
  const room = subRoom();
  const phase: Control = {
    name: 'phase',
    stages: ['phase'],
    eachPort: false,
    kind: 'phase',
    phase_rad: choices(0, Math.PI / 2, Math.PI, (3 * Math.PI) / 2),
    at_hz: 80,
  };
  const sub: Gear = {
    ...SUB,
    paths: SUB.paths.map((path) => ({
      ...path,
      stages: path.stages
        .filter((stage) => stage !== 'delay')
        .map((stage) => (stage === 'polarity' ? 'phase' : stage)),
    })),
    controls: [CROSSOVER, phase],
  };
  const setup = worked({
    ...room,
    subwoofers: room.subwoofers.map((one) => ({ ...one, gear: sub })),
  });
  expect(['0°', '90°', '180°', '270°']).toContain(adviceAt(setup, 'settings.sub.phase').dialIn);
  expect(POLARITY.kind).toBe('polarity');
});
