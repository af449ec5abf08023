// Rules delay/cycle-off and delay/latency, and polarity/undecided: mains at 2.15 m, subwoofer at 3.40 m, by hand.

import { describe, expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import { choice, crossover, ms, SUB, subRoom, subRoomWith } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

describe('delay/cycle-off', () => {
  // Where phase suits best at 100 Hz, one cycle more is 10 ms more.
  const at = (extra_ms: number) => {
    const base = { crossover: crossover(100) };
    const [figures] = worked(
      subRoomWith({ ...base, 'out_left:delay': ms(2.55), 'out_right:delay': ms(2.55) }),
    ).crossovers;
    const aligned_ms = (figures?.aligned?.subDelay_s ?? 0) * 1000;
    const polarity = choice(figures?.aligned?.polarity ?? 'normal');
    // The mains wait so long that the subwoofer's own delay is > 0.
    const mains_ms = 7.5;
    const sub_ms = Number((mains_ms - 2.55 + aligned_ms + extra_ms).toFixed(2));
    return worked(
      subRoomWith({
        ...base,
        polarity,
        'driver:delay': ms(sub_ms),
        'out_left:delay': ms(mains_ms),
        'out_right:delay': ms(mains_ms),
      }),
    );
  };

  test('10 ms too much at 100 Hz is one cycle', () => {
    const [finding] = findingsWith(at(10), 'delay/cycle-off');
    expect(finding?.message).toMatch(
      /^sub plays (9.9\d|10.0\d) ms too late: a whole cycle at 100 Hz/,
    );
  });

  test('aligned, and a third of a cycle off, are none', () => {
    expect(findingsWith(at(0), 'delay/cycle-off')).toEqual([]);
    expect(findingsWith(at(3.3), 'delay/cycle-off')).toEqual([]);
  });

  test('no setting, no finding', () => {
    expect(findingsWith(worked(subRoom({ settings: [] })), 'delay/cycle-off')).toEqual([]);
  });
});

describe('delay/latency', () => {
  // 0.8 ms in the subwoofer's electronics and 1.1 ms in the main: 1.9 ms, with the delay 10.0 ms or 10.05 ms.
  const late = (delay_ms: number) =>
    worked(subRoomWith({ 'out_left:delay': ms(delay_ms), 'out_right:delay': ms(delay_ms) }));

  test('more than 10 ms', () => {
    const [finding] = findingsWith(late(8.15), 'delay/latency');
    expect(finding?.severity).toBe('information');
    expect(told(finding ? [finding] : [])).toEqual([
      "speakers.left: left plays 10.05 ms behind the source's output: 1.90 ms of latency, 8.15 ms of delay",
    ]);
  });

  test('10 ms, and a way of unknown latency', () => {
    expect(findingsWith(late(8.1), 'delay/latency')).toEqual([]);
    const unknown = { ...SUB, latency_s: [] };
    const room = subRoomWith({ 'out_left:delay': ms(20), 'out_right:delay': ms(20) });
    const subwoofers = room.subwoofers.map((sub) => ({ ...sub, gear: unknown }));
    expect(findingsWith(worked({ ...room, subwoofers }), 'delay/latency')).toEqual([]);
  });
});

describe('polarity/undecided', () => {
  test('nothing dialled in, nothing said', () => {
    expect(findingsWith(worked(subRoom({ settings: [] })), 'polarity/undecided')).toEqual([]);
  });

  test('it follows the difference that is told, on both sides of 1.5 dB', () => {
    const seen = { undecided: 0, decided: 0 };
    for (let frequency_hz = 40; frequency_hz <= 130; frequency_hz += 5) {
      for (const slope of [12, 24]) {
        const setup = worked(subRoomWith({ crossover: crossover(frequency_hz, slope) }));
        const apart_db = Math.abs(setup.crossovers[0]?.otherPolarity_db ?? NaN);
        const found = findingsWith(setup, 'polarity/undecided');
        expect(found.length).toBe(apart_db < 1.5 ? 1 : 0);
        seen[apart_db < 1.5 ? 'undecided' : 'decided'] += 1;
      }
    }
    expect(seen.decided).toBeGreaterThan(0);
  });

  // By symmetry: equal levels a quarter turn apart add to the same power with either sign.
  test('a quarter turn apart is undecided', () => {
    const figures = worked(subRoomWith({})).crossovers[0];
    expect(figures).toBeDefined();
    const at = (delay_ms: number) => {
      const setup = worked(
        subRoomWith({
          crossover: crossover(100),
          'out_left:delay': ms(0),
          'out_right:delay': ms(0),
          'driver:delay': ms(delay_ms),
        }),
      );
      return { setup, apart_db: setup.crossovers[0]?.otherPolarity_db ?? NaN };
    };
    const all = Array.from({ length: 21 }, (_, step) => at(step * 0.5));
    for (const { setup, apart_db } of all)
      expect(findingsWith(setup, 'polarity/undecided').length).toBe(
        Math.abs(apart_db) < 1.5 ? 1 : 0,
      );
  });
});
