// The analysis of takes: it must find again what the recorded system was made of, and refuse what a take cannot tell.

import { describe, expect, test } from 'vitest';
import { biquad, biquadAt } from '../../core/acoustics/biquad.ts';
import { octaves } from '../../core/acoustics/thirdOctave.ts';
import { levelAt_db } from '../../core/measure/correction.ts';
import { ringings, ringingView } from '../../core/measure/ringing.ts';
import { takeFigures } from '../../core/measure/take.ts';
import { warningWords } from '../../server/measure/takeWords.ts';
import { expectNear } from '../support/expectNear.ts';
import { DESIGN, hiss, impulseAt, OPTIONS, RATE_HZ, sum, tail, takeOf, through } from './takes.ts';

/** Of a Butterworth filter of the second order. */
const Q = Math.SQRT1_2;

describe('a full-range source', () => {
  // 40 Hz high-pass, a diffuse tail of 0.30 s 30 dB below the direct sound's peak.
  const room = (delay_s: number, height: number, seed = 3): Float64Array =>
    sum(
      through(impulseAt(delay_s, height), ['high_pass', 40, Q]),
      tail(seed, 0.3, Math.abs(height) * 0.03, delay_s + 0.004),
    );

  test.each([
    [0.0063217, 0.5, 'upright'],
    [0.0091234, -0.5, 'inverted'],
    [0.0171, 0.02, 'upright'],
  ] as const)('arrival at %d s within 0.02 ms, polarity of %d', (delay_s, height, polarity) => {
    const take = takeOf(room(delay_s, height));
    expect(take.arrival.method).toBe('peak');
    expect(Math.abs((take.arrival.arrival_s ?? Number.NaN) - delay_s)).toBeLessThan(0.02e-3);
    expect(take.polarity.polarity).toBe(polarity);
  });

  test('response within 0.1 dB, phase within 2°, minimum phase within 4° of the filter that was measured', () => {
    const take = takeOf(through(impulseAt(0.007, 1), ['high_pass', 60, 0.9]));
    const section = biquad({ kind: 'high_pass', frequency_hz: 60, q: 0.9, gain_db: 0 }, RATE_HZ);
    const { frequencies_hz, levels_db, phase_rad, minimumPhase_rad } = take.response;
    frequencies_hz.forEach((f, i) => {
      if (f < 100 || 15000 < f) return;
      const { re, im } = biquadAt(section, f, RATE_HZ);
      expect(
        Math.abs((levels_db[i] as number) - 20 * Math.log10(Math.hypot(re, im))),
        `${f} Hz`,
      ).toBeLessThan(0.1);
      const off_rad = Math.abs((phase_rad[i] as number) - Math.atan2(im, re));
      expect(off_rad, `phase ${f} Hz`).toBeLessThan(0.03);
      // A filter of minimum phase: both are the same.
      expect(
        Math.abs((minimumPhase_rad[i] as number) - Math.atan2(im, re)),
        `minimum ${f} Hz`,
      ).toBeLessThan(0.06);
    });
  });

  test('without a timing reference there is no arrival, with the reason', () => {
    const take = takeOf(room(0.006, 0.5), { isLooped: false });
    expect(take.arrival).toMatchObject({ arrival_s: null, refusal: 'no-timing-reference' });
    expect(take.arrival.place_s).toBeCloseTo(0.006, 4);
  });

  test('repeats are averaged: noise falls by 3 dB for twice as many', () => {
    const of = (repeatCount: number): number => {
      const take = takeOf(impulseAt(0.006, 0.5), {
        noise_dbfs: -50,
        design: { ...DESIGN, repeatCount },
      });
      const one = take.signalToNoise.find(({ band }) => band.nominal_hz === 1000);
      return one?.signalToNoise_db ?? Number.NaN;
    };
    expect(of(4) - of(1)).toBeGreaterThan(3.5);
    expect(of(4) - of(1)).toBeLessThan(8.5);
  });
});

describe('a subwoofer', () => {
  const SUBS = [
    {
      name: 'LR4 at 80 Hz',
      filters: [
        ['low_pass', 80, Q],
        ['low_pass', 80, Q],
      ],
    },
    { name: 'LR2 at 120 Hz', filters: [['low_pass', 120, 0.5]] },
    {
      name: 'LR4 at 100 Hz',
      filters: [
        ['low_pass', 100, Q],
        ['low_pass', 100, Q],
      ],
    },
  ] as const;
  const sub = (
    delay_s: number,
    height: number,
    filters: (typeof SUBS)[number]['filters'],
  ): Float64Array => through(impulseAt(delay_s, height), ['high_pass', 28, Q], ...filters);

  test.each(SUBS)('$name: arrival within 0.5 ms, both polarities', ({ filters }) => {
    for (const height of [1, -1])
      for (const delay_s of [0.0031, 0.0152]) {
        const take = takeOf(sub(delay_s, height, filters));
        expect(take.arrival.method).toBe('slope');
        expect(
          Math.abs((take.arrival.arrival_s ?? Number.NaN) - delay_s),
          `${delay_s} s`,
        ).toBeLessThan(0.5e-3);
        expect(take.polarity.polarity).toBe(height < 0 ? 'inverted' : 'upright');
      }
  });

  test('also with two reflections weaker than the direct sound', () => {
    const direct = sub(0.0087, 1, SUBS[0].filters);
    const late = (ms: number, gain: number) =>
      direct.map((_, i) => gain * (direct[i - Math.round(ms * 48)] ?? 0));
    const take = takeOf(sum(direct, late(11, 0.5), late(21, 0.35)));
    expect(Math.abs((take.arrival.arrival_s ?? Number.NaN) - 0.0087)).toBeLessThan(0.5e-3);
  });

  test('its response is refused where it drowns in noise', () => {
    const take = takeOf(sub(0.005, 1, SUBS[0].filters), { noise_dbfs: -70 });
    expect(take.response.refused.length).toBeGreaterThan(5);
    expect(levelAt_db(take.response, 8000)).toBeNaN();
    expect(levelAt_db(take.response, 50)).not.toBeNaN();
  });
});

describe('decay', () => {
  test('bands too narrow for their decay are refused, and what rings in them is told', () => {
    // Two damped sines in the 63 Hz octave, 0.3 s and 0.22 s long.
    const rings = [
      { f: 52.3, t: 0.3, a: 0.02 },
      { f: 71.8, t: 0.22, a: 0.02 },
    ];
    const modes = impulseAt(0, 0).map((_, i) => {
      const t = i / RATE_HZ - 0.006;
      return t < 0
        ? 0
        : rings.reduce(
            (all, { f, t: T, a }) => all + a * Math.sin(2 * Math.PI * f * t) * 10 ** ((-3 * t) / T),
            0,
          );
    });
    const take = takeOf(sum(impulseAt(0.006, 0.3), modes));
    const band = take.octaves.find(({ band: { nominal_hz } }) => nominal_hz === 63);
    expect([band?.t20_s, band?.refusal]).toEqual([null, 'bandwidth-time']);
    for (const { f, t } of rings) {
      const found = band?.ringings.find(({ frequency_hz }) => Math.abs(frequency_hz - f) < 0.5);
      expect(Math.abs((found?.decayTime_s ?? Number.NaN) - t) / t, `${f} Hz`).toBeLessThan(0.05);
    }
  });

  test('nothing rings in noise', () => {
    const [band] = octaves(63, 63);
    const found =
      band === undefined ? [] : ringings(ringingView(hiss(1, RATE_HZ), RATE_HZ), band, 0.05);
    expect(found.length).toBeLessThan(3);
  });

  test('too little above the noise: no T20, then no T30, with the reason', () => {
    const room = sum(impulseAt(0.006, 0.05), tail(1, 0.4, 0.05, 0.006));
    const at = (noise_dbfs: number) =>
      takeOf(room, { noise_dbfs }).octaves.find(({ band }) => band.nominal_hz === 1000);
    const clean = at(-90);
    expect([clean?.refusal, clean?.t30Refusal]).toEqual([null, null]);
    const half = at(-90 + (clean?.peakToNoise_db ?? 0) - 40);
    expect([half?.refusal, half?.t30Refusal, half?.t30_s]).toEqual([null, 'noise', null]);
    const noisy = at(-90 + (clean?.peakToNoise_db ?? 0) - 28);
    expect([noisy?.refusal, noisy?.t20_s]).toEqual(['noise', null]);
  });

  test('two slopes are warned of (ISO 3382-2: curvature above 10 %)', () => {
    const room = sum(impulseAt(0.006, 0.3), tail(1, 0.2, 0.05, 0.006), tail(2, 0.8, 0.003, 0.006));
    const kinds = takeOf(room, { noise_dbfs: -100 }).warnings.map(({ kind }) => kind);
    expect(kinds).toContain('double-slope');
  });
});

describe('distortion', () => {
  test('none is told where there is none', () => {
    const { distortion } = takeOf(impulseAt(0.006, 0.5), { noise_dbfs: -80 });
    const seen = distortion?.total_ratio.filter((ratio) => 1e-3 < ratio) ?? [1];
    expect(seen).toHaveLength(0);
  });
});

describe('an impulse response by itself', () => {
  const samples = sum(impulseAt(0.006, 0.5, 0.3), tail(1, 0.2, 0.02, 0.006, 0.3));

  test('too short to tell its noise: said so', () => {
    const impulse = { samples, sampleRate_hz: RATE_HZ, start_s: 0, isTimed: false };
    const kinds = takeFigures(impulse, OPTIONS)?.warnings.map(({ kind }) => kind);
    expect(kinds).toContain('short-response');
  });

  test.each([0.7, 0.85, 2.5])(
    'signal over noise of %d s: white noise under the window, by hand',
    (length_s) => {
      const rms = 1e-5;
      const noise = hiss(7, Math.round(length_s * RATE_HZ)).map((value) => rms * value);
      const impulse = {
        samples: sum(impulseAt(0.006, 0.5, length_s), noise),
        sampleRate_hz: RATE_HZ,
      };
      const take = takeFigures({ ...impulse, start_s: 0, isTimed: false }, OPTIONS);
      const bands = take?.signalToNoise.filter(({ band }) => 500 <= band.nominal_hz) ?? [];
      // An impulse has the power 0.5² at every frequency; white noise σ² Σw²: soft ends count 3/8, 20 ms half soft, 500 ms a quarter.
      const passed_s = 0.02 * (0.5 + 0.5 * 0.375) + 0.5 * (0.75 + 0.25 * 0.375);
      const want_db = 10 * Math.log10(0.25 / (rms * rms * passed_s * RATE_HZ));
      expect(bands.length).toBeGreaterThan(10);
      // 100 Hz and more of chance for a tenth of a second and more: a decibel or two.
      for (const { signalToNoise_db } of bands) expectNear([signalToNoise_db], [want_db], 2, 'dB');
    },
  );

  test('silence has no figures', () => {
    const impulse = {
      samples: new Float64Array(4800),
      sampleRate_hz: RATE_HZ,
      start_s: 0,
      isTimed: false,
    };
    expect(takeFigures(impulse, OPTIONS)).toBeNull();
  });

  test('each warning has words', () => {
    expect(warningWords({ kind: 'not-straight', count: 1 })).toContain('1 octave does');
    expect(warningWords({ kind: 'later-peak-higher', higher_db: 3 })).toContain('3.0 dB');
  });
});
