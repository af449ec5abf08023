// What must hold of any filter: sums that are flat, all-passes that change no level, delay that is the slope of phase.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  delayAt,
  firstOrderAllPass,
  phaseLag,
  phaseOfTime_rad,
  secondOrderAllPass,
} from '../../core/acoustics/allPass.ts';
import {
  type AnalogueFilter,
  filterAt,
  filterLevel_db,
  groupDelay_s,
  WIRE,
} from '../../core/acoustics/analogueFilter.ts';
import { biquad } from '../../core/acoustics/biquad.ts';
import { magnitude_db, over, phase_rad, plus, wrapped_rad } from '../../core/acoustics/complex.ts';
import {
  bessel,
  butterworth,
  type CrossoverShape,
  crossoverFilter,
  linkwitzRiley,
} from '../../core/acoustics/crossoverFilter.ts';
import { equaliser, equaliserBand } from '../../core/acoustics/equaliser.ts';
import {
  type LowEnd,
  lowRolloff,
  naturalRolloff,
  rolloffAlternatives,
  rolloffPhaseSpread_rad,
} from '../../core/acoustics/rolloff.ts';
import { expectNear } from '../support/expectNear.ts';

const frequency_hz = fc.double({ min: 10, max: 2000, noNaN: true });
const corner_hz = fc.double({ min: 20, max: 500, noNaN: true });

const ALL: readonly { readonly name: string; readonly filter: AnalogueFilter }[] = [
  ...[1, 2, 3, 4, 5, 6, 7, 8].map((n) => ({
    name: `Butterworth ${n}`,
    filter: butterworth(n, 'high_pass', 70),
  })),
  ...[2, 4, 6, 8].map((n) => ({
    name: `Linkwitz-Riley ${n}`,
    filter: linkwitzRiley(n, 'low_pass', 70),
  })),
  ...[1, 2, 3, 4].map((n) => ({ name: `Bessel ${n}`, filter: bessel(n, 'low_pass', 70) })),
  { name: 'first all-pass', filter: firstOrderAllPass(90) },
  { name: 'second all-pass', filter: secondOrderAllPass(60, 1.3) },
  { name: 'bell', filter: equaliserBand({ kind: 'bell', frequency_hz: 50, gain_db: -9, q: 4 }) },
  {
    name: 'low shelf',
    filter: equaliserBand({ kind: 'low_shelf', frequency_hz: 90, gain_db: 5, q: 0.8 }),
  },
  {
    name: 'high shelf',
    filter: equaliserBand({ kind: 'high_shelf', frequency_hz: 90, gain_db: -5, q: 0.8 }),
  },
];

describe('Linkwitz-Riley sides add up flat (Linkwitz 1976)', () => {
  test.each([
    { order: 2, inverted: true },
    { order: 4, inverted: false },
    { order: 6, inverted: true },
    { order: 8, inverted: false },
  ])('order $order, one side inverted: $inverted', ({ order, inverted }) => {
    fc.assert(
      fc.property(frequency_hz, corner_hz, (f, fc_hz) => {
        const low = filterAt(linkwitzRiley(order, 'low_pass', fc_hz), f);
        const high = filterAt(linkwitzRiley(order, 'high_pass', fc_hz), f);
        const sum = plus(low, inverted ? { re: -high.re, im: -high.im } : high);
        expectNear(magnitude_db(sum), 0, 1e-9, 'dB');
      }),
    );
  });

  test('order 4: both sides in phase at every frequency', () => {
    fc.assert(
      fc.property(fc.double({ min: 30, max: 300, noNaN: true }), (f) => {
        const low = filterAt(linkwitzRiley(4, 'low_pass', 80), f);
        const high = filterAt(linkwitzRiley(4, 'high_pass', 80), f);
        expectNear(wrapped_rad(phase_rad(low) - phase_rad(high)), 0, 1e-9, 'rad');
      }),
    );
  });

  test('phase of the low side at the crossover: −90°, −180°, 0° for orders 2, 4, 8', () => {
    const at = (order: number) => {
      const { re, im } = filterAt(linkwitzRiley(order, 'low_pass', 80), 80);
      return [re, im];
    };
    expectNear([...at(2), ...at(4), ...at(8)], [0, -0.5, -0.5, 0, 0.5, 0], 1e-12, '');
  });
});

test('Butterworth 3 sums to an all-pass either way round (textbook)', () => {
  fc.assert(
    fc.property(frequency_hz, (f) => {
      const low = filterAt(butterworth(3, 'low_pass', 80), f);
      const high = filterAt(butterworth(3, 'high_pass', 80), f);
      expectNear(magnitude_db(plus(low, high)), 0, 1e-9, 'dB');
      expectNear(magnitude_db(plus(low, { re: -high.re, im: -high.im })), 0, 1e-9, 'dB');
    }),
  );
});

test('Butterworth levels add to one in power, every order', () => {
  fc.assert(
    fc.property(frequency_hz, fc.integer({ min: 1, max: 8 }), (f, order) => {
      const low = 10 ** (filterLevel_db(butterworth(order, 'low_pass', 80), f) / 10);
      const high = 10 ** (filterLevel_db(butterworth(order, 'high_pass', 80), f) / 10);
      expectNear(low + high, 1, 1e-9, '');
    }),
  );
});

describe('group delay is minus the slope of phase over ω', () => {
  test.each(ALL)('$name', ({ filter }) => {
    for (const f of [23, 51, 77, 160, 410]) {
      const step_hz = f * 1e-5;
      const ratio = over(filterAt(filter, f + step_hz), filterAt(filter, f - step_hz));
      const slope_s = -phase_rad(ratio) / (4 * Math.PI * step_hz);
      expectNear(groupDelay_s(filter, f), slope_s, 1e-8, 's');
    }
  });
});

describe('all-passes', () => {
  test('change no level', () => {
    fc.assert(
      fc.property(frequency_hz, corner_hz, (f, corner) => {
        expectNear(filterLevel_db(firstOrderAllPass(corner), f), 0, 1e-9, 'dB');
        expectNear(filterLevel_db(secondOrderAllPass(corner, 0.7), f), 0, 1e-9, 'dB');
      }),
    );
  });

  test('the sum of a Linkwitz-Riley 4 is the second-order all-pass of Q 0.7071', () => {
    fc.assert(
      fc.property(frequency_hz, (f) => {
        const low = filterAt(linkwitzRiley(4, 'low_pass', 80), f);
        const sum = plus(low, filterAt(linkwitzRiley(4, 'high_pass', 80), f));
        const { re, im } = filterAt(secondOrderAllPass(80, Math.SQRT1_2), f);
        expectNear([sum.re, sum.im], [re, im], 1e-9, '');
      }),
    );
  });

  test.each([30, 45, 90, 135, 179])(
    'a phase control at %i° lags by that much at its frequency',
    (degrees) => {
      const lag_rad = (degrees * Math.PI) / 180;
      expectNear(phase_rad(filterAt(phaseLag(lag_rad, 80), 80)), -lag_rad, 1e-12, 'rad');
    },
  );

  test('a phase control at 0 is a wire, at 180° a reversal; beyond, it does not exist', () => {
    expect(phaseLag(0, 80)).toEqual(WIRE);
    expectNear(filterAt(phaseLag(Math.PI, 80), 33).re, -1, 0, '');
    expect(() => phaseLag(-0.1, 80)).toThrow('lag_rad');
  });

  test('5 ms at 50 Hz are a quarter turn late (by hand)', () => {
    const { re, im } = delayAt(0.005, 50);
    expectNear([re, im], [0, -1], 1e-12, '');
    expectNear(phaseOfTime_rad(0.005, 50), Math.PI / 2, 1e-12, 'rad');
  });
});

describe('equaliser bands', () => {
  test('a bell has its gain at its frequency, a shelf half of it; far away both are done', () => {
    const band = { frequency_hz: 100, gain_db: -6, q: Math.SQRT1_2 } as const;
    const level = (kind: 'bell' | 'low_shelf' | 'high_shelf', f: number) =>
      filterLevel_db(equaliserBand({ kind, ...band }), f);
    expectNear(
      [level('bell', 100), level('low_shelf', 100), level('high_shelf', 100)],
      [-6, -3, -3],
      1e-9,
      'dB',
    );
    expectNear([level('low_shelf', 0.01), level('high_shelf', 0.01)], [-6, 0], 1e-5, 'dB');
    expectNear([level('low_shelf', 1e6), level('high_shelf', 1e6)], [0, -6], 1e-5, 'dB');
  });

  test('boost and cut of the same Q cancel', () => {
    fc.assert(
      fc.property(frequency_hz, fc.double({ min: 0.3, max: 12, noNaN: true }), (f, q) => {
        const bands = [4, -4].map(
          (gain_db) => ({ kind: 'bell', frequency_hz: 90, gain_db, q }) as const,
        );
        expectNear(filterLevel_db(equaliser(bands), f), 0, 1e-9, 'dB');
      }),
    );
  });
});

describe('natural roll-offs', () => {
  const vented: LowEnd = { minus6db_hz: 48, order: 4, kind: 'vented' };

  test.each([
    vented,
    { minus6db_hz: 60, order: 2, kind: 'sealed' } as const,
    { minus6db_hz: 21, order: 4, protection: { frequency_hz: 18, order: 4 } },
    { minus6db_hz: 30, order: 2, protection: { frequency_hz: 20, order: 2 } },
  ])('$minus6db_hz Hz, order $order: 6 dB down there, and so are its other tunings', (lowEnd) => {
    for (const filter of [lowRolloff(lowEnd), ...rolloffAlternatives(lowEnd)]) {
      expectNear(filterLevel_db(filter, lowEnd.minus6db_hz), -6, 1e-9, 'dB');
      expectNear(filterLevel_db(filter, 100 * lowEnd.minus6db_hz), 0, 0.01, 'dB');
    }
  });

  test('far below, the level falls by 6 dB an octave an order (24 for a vented box)', () => {
    const filter = lowRolloff(vented);
    expectNear(filterLevel_db(filter, 4) - filterLevel_db(filter, 2), 24.08, 0.01, 'dB');
  });

  test('a protection that alone is 6 dB down is all there is', () => {
    const lowEnd: LowEnd = {
      minus6db_hz: 20,
      order: 4,
      protection: { frequency_hz: 30, order: 4 },
    };
    expect(lowRolloff(lowEnd)).toEqual(butterworth(4, 'high_pass', 30));
  });

  test('phase is least sure near the roll-off and surer an octave above', () => {
    const near_rad = rolloffPhaseSpread_rad(vented, 48);
    expect(near_rad).toBeGreaterThan(0.3);
    expect(rolloffPhaseSpread_rad(vented, 96)).toBeLessThan(near_rad);
    expect(rolloffPhaseSpread_rad({ minus6db_hz: 48, order: 3 }, 48)).toBe(0);
  });

  test('ends that are not known are flat', () => {
    expect(naturalRolloff({})).toEqual(WIRE);
  });
});

describe('what does not exist is refused', () => {
  test.each([
    {
      shape: { kind: 'linkwitz_riley', order: 3 },
      message: 'Linkwitz-Riley of order 3: only 2, 4, 6, 8',
    },
    { shape: { kind: 'butterworth', order: 9 }, message: 'Butterworth of order 9' },
    { shape: { kind: 'bessel', order: 5 }, message: 'Bessel of order 5' },
  ] as const)('$message', ({ shape, message }) => {
    expect(() => crossoverFilter(shape satisfies CrossoverShape, 'low_pass', 80)).toThrow(message);
  });

  test('frequencies at or beyond half the sample rate', () => {
    const shape = { kind: 'bell', frequency_hz: 24_000, gain_db: 3, q: 1 } as const;
    expect(() => biquad(shape, 48_000)).toThrow('frequency_hz 24000 is not below half of 48000');
    expect(() => butterworth(2, 'low_pass', 0)).toThrow('frequency_hz');
  });
});
