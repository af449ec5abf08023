// Placement searches: as good as brute force, mirrored rooms alike, finer grids never worse, settings in the device's steps.
import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { prepareBoxField } from '../../core/acoustics/field/boxField.ts';
import type { Box } from '../../core/acoustics/field/boxTransfer.ts';
import { mapOfBox } from '../../core/search/boxMap.ts';
import { carried_m } from '../../core/search/distinct.ts';
import { levelCost, levelTerms } from '../../core/search/placementCost.ts';
import { quickLevels } from '../../core/search/quickLevel.ts';
import { searchPlacement } from '../../core/search/searchPlacement.ts';
import type { PlacementTask } from '../../core/search/searchTask.ts';
import { allAtOnce, type TransferMap, withProgress } from '../../core/search/transferMap.ts';
import { placementComparisons, STORED_ROOMS, storedSearch } from '../accuracy/cases/placement.ts';
import { checkComparisons } from '../support/checkComparisons.ts';
import { expectNear } from '../support/expectNear.ts';
import { modalMap } from '../support/modalRoom.ts';
import { plainSub, plainTask } from '../support/placementTasks.ts';

checkComparisons(placementComparisons);

type Triple = readonly [number, number, number];
const HZ = Array.from({ length: 31 }, (_, i) => 20 + 2 * i);
const ROOM = {
  room_m: [5.2, 4, 2.6] as Triple,
  decayTime_s: 0.4,
  speedOfSound_m_s: 343,
  limit_hz: 200,
};
const SEATS: readonly Triple[] = [
  [2.1, 2.4, 1.2],
  [2.9, 3, 1.2],
];

function grid(step_m: number, [width_m, depth_m] = ROOM.room_m, from_m = 0.3): readonly Triple[] {
  const along = (length_m: number) => {
    const count = Math.floor((length_m - 2 * from_m) / step_m + 1e-9) + 1;
    return Array.from({ length: count }, (_, i) => Number((from_m + i * step_m).toFixed(6)));
  };
  return along(width_m).flatMap((x) => along(depth_m).map((y): Triple => [x, y, 0.25]));
}

const bestOf = (task: PlacementTask) => {
  const [best] = allAtOnce(searchPlacement(task)).candidates;
  if (best === undefined) throw new Error('nothing found');
  return best;
};

test('four subs: never worse than the best mirrored set (stored data, exhaustive)', () => {
  const room = STORED_ROOMS.find(({ four_symmetric_subs }) => four_symmetric_subs !== undefined);
  if (room === undefined) throw new Error('no such room in the data');
  const [best] = storedSearch(room, 4).candidates;
  expect(best?.cost_db).toBeLessThanOrEqual((room.four_symmetric_subs?.best[0]?.cost ?? 0) + 1e-6);
});

test('more subs are never worse than fewer in the stored rooms, where every pair was judged', () => {
  for (const room of STORED_ROOMS) {
    const [one, two] = [storedSearch(room, 1), storedSearch(room, 2)];
    expect(two.exhaustive).toBe(true);
    expect(two.candidates[0]?.cost_db ?? 99).toBeLessThan(one.candidates[0]?.cost_db ?? 0);
  }
});

describe('candidates', () => {
  const map = modalMap(ROOM, HZ, SEATS, grid(0.2));
  const { candidates } = allAtOnce(searchPlacement(plainTask(map, 2)));

  test('are clearly different, best first', () => {
    expect(candidates.length).toBeGreaterThan(2);
    for (const [index, one] of candidates.entries()) {
      const next = candidates[index + 1];
      if (next) expect(one.cost_db).toBeLessThanOrEqual(next.cost_db);
      for (const other of candidates.slice(index + 1)) {
        expect(carried_m(one.positions, other.positions)).toBeGreaterThanOrEqual(0.75 - 1e-6);
      }
    }
  });

  test('tell figures that follow from their levels', () => {
    for (const { levels_db, flatness_db, spread_db, output_db } of candidates) {
      const all = Float64Array.from(levels_db.flatMap((list) => [...list]));
      const terms = levelTerms(all, SEATS.length, HZ.length);
      expectNear(
        [flatness_db, spread_db],
        [terms.flatness_db[0] ?? 0, terms.spread_db],
        1e-9,
        'dB',
      );
      const power = [...(levels_db[0] ?? [])].reduce((sum, level) => sum + 10 ** (level / 10), 0);
      expectNear(output_db, 10 * Math.log10(power / HZ.length), 1e-9, 'dB');
    }
  });

  test('the way to carry two subs counts the nearer exchange', () => {
    const at = (x_m: number, y_m: number) => ({ x_m, y_m, z_m: 0 });
    expect(carried_m([at(0, 0), at(3, 0)], [at(3, 0), at(0, 0)])).toBe(0);
    expectNear(carried_m([at(0, 0), at(3, 0)], [at(3, 1), at(0, 0)]), 1, 1e-12, 'm');
  });
});

test('mirrored rooms give mirrored answers', () => {
  const mirrored = ([x, y, z]: Triple): Triple => [ROOM.room_m[0] - x, y, z];
  const points = grid(0.2);
  for (const count of [1, 2]) {
    const one = bestOf(plainTask(modalMap(ROOM, HZ, SEATS, points), count));
    const other = bestOf(
      plainTask(modalMap(ROOM, HZ, SEATS.map(mirrored), points.map(mirrored)), count),
    );
    expectNear(other.cost_db, one.cost_db, 1e-9, 'dB');
    const back = other.positions.map(({ x_m, y_m, z_m }) => ({
      x_m: ROOM.room_m[0] - x_m,
      y_m,
      z_m,
    }));
    expectNear(carried_m(back, one.positions), 0, 1e-9, 'm');
  }
});

test('a finer grid that includes the coarser one is never worse', () => {
  const rooms = fc.record({
    width_m: fc.double({ min: 3.5, max: 5.5, noNaN: true }),
    depth_m: fc.double({ min: 3, max: 5, noNaN: true }),
  });
  fc.assert(
    fc.property(rooms, ({ width_m, depth_m }) => {
      const room = { ...ROOM, room_m: [width_m, depth_m, 2.6] as Triple };
      const seats: readonly Triple[] = [[width_m / 2, depth_m * 0.6, 1.2]];
      const cost = (step_m: number, count: number) =>
        bestOf(plainTask(modalMap(room, HZ, seats, grid(step_m, room.room_m)), count)).cost_db;
      for (const count of [1, 2]) {
        expect(cost(0.3, count)).toBeLessThanOrEqual(cost(0.6, count) + 1e-9);
      }
    }),
    { numRuns: 6 },
  );
});

test('two subs on a grid too fine for all pairs: within a hundredth of a decibel of brute force', () => {
  const map = modalMap(ROOM, HZ, SEATS, grid(0.15, [5.2, 4, 2.6]));
  const [count, length] = [map.points.length, SEATS.length * HZ.length];
  // Twice the frequencies with half the weight each change no cost and make the search thin its pairs out.
  const result = allAtOnce(searchPlacement(plainTask(repeated(map, 16), 2)));
  expect(result.exhaustive).toBe(false);
  const cost = levelCost({ flatnessWeights: [0.5, 0.5], spreadWeight: 1, outputWeight: 0 });
  const levels = new Float64Array(length);
  let best = Number.POSITIVE_INFINITY;
  for (let one = 0; one < count; one++) {
    for (let other = one + 1; other < count; other++) {
      for (let i = 0; i < length; i++) {
        const re = (map.re[one * length + i] ?? 0) + (map.re[other * length + i] ?? 0);
        const im = (map.im[one * length + i] ?? 0) + (map.im[other * length + i] ?? 0);
        levels[i] = 10 * Math.log10(re * re + im * im);
      }
      best = Math.min(best, cost(levels, SEATS.length, HZ.length));
    }
  }
  expect(result.candidates[0]?.cost_db ?? 99).toBeLessThan(best + 0.01);
});

/** The same map with every frequency listed several times. */
function repeated(map: TransferMap, times: number): TransferMap {
  const again = (values: Float64Array) => {
    const out = new Float64Array(values.length * times);
    values.forEach((value, i) => {
      out.fill(value, i * times, (i + 1) * times);
    });
    return out;
  };
  return {
    ...map,
    frequency_hz: map.frequency_hz.flatMap((f) => new Array<number>(times).fill(f)),
    re: again(map.re),
    im: again(map.im),
  };
}

describe('settings', () => {
  const map = modalMap(ROOM, HZ, SEATS, grid(0.4));
  const steps = (min: number, max: number, step: number) => ({ min, max, step, choices: null });
  const free = {
    level_db: steps(-12, 6, 0.5),
    delay_s: steps(0, 0.02, 0.0001),
    canInvert: true,
  };
  const subs = [plainSub(map, 0), plainSub(map, 1)].map((sub) => ({ ...sub, ranges: free }));

  test('help, and can be dialled in', () => {
    const plain = bestOf(plainTask(map, 2));
    const set = bestOf(plainTask(map, 2, { subs }));
    expect(set.cost_db).toBeLessThan(plain.cost_db);
    for (const { level_db, delay_s } of set.settings) {
      expectNear(level_db / 0.5, Math.round(level_db / 0.5), 1e-6, 'steps');
      expectNear(delay_s / 1e-4, Math.round(delay_s / 1e-4), 1e-6, 'steps');
      expect(-12 <= level_db && level_db <= 6 && 0 <= delay_s && delay_s <= 0.02).toBe(true);
    }
    expect(Math.min(...set.settings.map(({ delay_s }) => delay_s))).toBe(0);
  });

  test('with mains: a sub out of phase is turned round', () => {
    // "Mains" that are the sub itself at one place, upside down: with its polarity turned both double, else they cancel.
    const length = HZ.length;
    const fixed = SEATS.map((_, seat) => ({
      re: map.re.slice(seat * length, (seat + 1) * length).map((x) => -x),
      im: map.im.slice(seat * length, (seat + 1) * length).map((x) => -x),
    }));
    const [sub] = subs;
    if (sub === undefined) throw new Error('no sub');
    const onePlace = {
      ...map,
      points: map.points.slice(0, 1),
    };
    const best = bestOf(
      plainTask(map, 1, {
        fixed,
        // Silence would be flat: what is left counts too.
        cost: levelCost({ flatnessWeights: [0.5, 0.5], spreadWeight: 1, outputWeight: 0.1 }),
        crossover_hz: 80,
        subs: [{ ...sub, map: onePlace, ranges: { ...free, level_db: null, delay_s: null } }],
      }),
    );
    expect(best.settings[0]?.inverted).toBe(true);
  });

  test('a common delay of all subs is taken out where nothing else sounds', () => {
    const late = subs.map((sub) => ({ ...sub, setting: { ...sub.setting, delay_s: 0.01 } }));
    const { settings } = bestOf(plainTask(map, 2, { subs: late }));
    expect(Math.min(...settings.map(({ delay_s }) => delay_s))).toBe(0);
  });
});

describe('forgiveness', () => {
  test('grows with the wavelength: a room twice as large at half the frequencies forgives twice as far', () => {
    const scale = (factor: number) => {
      const scaled = ([x, y, z]: Triple): Triple => [x * factor, y * factor, z * factor];
      const room = {
        room_m: scaled(ROOM.room_m),
        decayTime_s: ROOM.decayTime_s * factor,
        speedOfSound_m_s: 343,
        limit_hz: ROOM.limit_hz / factor,
      };
      const hz = HZ.map((f) => f / factor);
      const map = modalMap(room, hz, SEATS.map(scaled), grid(0.2).map(scaled));
      return bestOf(plainTask(map, 1, { different_m: 0.75 * factor }));
    };
    const [small, large] = [scale(1), scale(2)];
    expectNear(large.cost_db, small.cost_db, 1e-6, 'dB');
    expectNear((large.forgiveness_m[0] ?? 0) / (small.forgiveness_m[0] ?? 1), 2, 1e-6, '');
  });

  test('null where nothing near changes the response', () => {
    const map = modalMap(ROOM, HZ, SEATS, [[1, 1, 0.25]]);
    expect(bestOf(plainTask(map, 1)).forgiveness_m).toEqual([null]);
  });
});

describe('subs keep apart', () => {
  const map = modalMap(ROOM, HZ, SEATS, grid(0.4));
  test.each([0, 1.5, 3])('%s m', (apart_m) => {
    for (const { positions } of allAtOnce(searchPlacement(plainTask(map, 3, { apart_m })))
      .candidates) {
      positions.forEach((one, i) => {
        for (const other of positions.slice(i + 1)) {
          const distance = Math.hypot(one.x_m - other.x_m, one.y_m - other.y_m);
          expect(distance).toBeGreaterThan(Math.max(0.01, apart_m - 1e-9));
        }
      });
    }
  });
});

describe('in slices', () => {
  const map = modalMap(ROOM, HZ, SEATS, grid(0.3));

  test('tells a share that only grows, from 0 to 1', () => {
    const shares: number[] = [];
    const result = withProgress(searchPlacement(plainTask(map, 2)), (share) => {
      shares.push(share);
      return true;
    });
    expect(result).not.toBeNull();
    expect(shares.length).toBeGreaterThan(20);
    expect(
      shares.every((share, i) => 0 <= share && share <= 1 && (shares[i - 1] ?? 0) <= share + 1e-12),
    ).toBe(true);
  });

  test('can be given up, or be thrown out of', () => {
    expect(withProgress(searchPlacement(plainTask(map, 2)), () => false)).toBeNull();
    expect(() =>
      withProgress(searchPlacement(plainTask(map, 2)), () => {
        throw new Error('enough');
      }),
    ).toThrow('enough');
  });
});

test('nothing is found where nothing is allowed; no sub and five are faults of the caller', () => {
  const none = modalMap(ROOM, HZ, SEATS, []);
  expect(allAtOnce(searchPlacement(plainTask(none, 2))).candidates).toEqual([]);
  expect(() => allAtOnce(searchPlacement(plainTask(none, 5)))).toThrow(RangeError);
  expect(() => allAtOnce(searchPlacement(plainTask(none, 0)))).toThrow(RangeError);
});

test('quick levels are within 3e-7 dB of the exact ones over all magnitudes', () => {
  const values = fc.array(fc.double({ min: 1e-290, max: 1e290, noNaN: true }), {
    minLength: 1,
    maxLength: 50,
  });
  fc.assert(
    fc.property(values, (powers) => {
      const { power, toLevels_db } = quickLevels(powers.length);
      power.set(powers);
      const out = new Float64Array(powers.length);
      toLevels_db(new Float64Array(powers.length), out);
      expectNear(
        out,
        powers.map((value) => 10 * Math.log10(value)),
        3e-7,
        'dB',
      );
    }),
  );
});

describe('map of a box', () => {
  const wall = (real: number) => ({ real, imaginary: 0.01 });
  const box: Box = [
    { length_m: 5.1, walls: [wall(0.02), wall(0.05)] },
    { length_m: 6.3, walls: [wall(0.03), wall(0.08)] },
    { length_m: 2.7, walls: [wall(0.02), wall(0.1)] },
  ];
  const medium = { speedOfSound_m_s: 343, density_kg_m3: 1.2 };
  const seats = [
    { x_m: 2.5, y_m: 3.9, z_m: 1.2 },
    { x_m: 1.6, y_m: 4.8, z_m: 1.25 },
  ];
  const points = grid(0.7, [5.1, 6.3, 2.7]).map(([x_m, y_m, z_m]) => ({ x_m, y_m, z_m }));
  const hz = [20, 30, 45, 60, 75, 90, 105, 120];
  const map = allAtOnce(mapOfBox(() => box, medium, hz, seats, points));

  test('agrees with the room field point by point: 0.1 dB RMS', () => {
    const listening = prepareBoxField(() => box, medium, hz).listenAt(
      seats.map(({ x_m, y_m, z_m }) => [x_m, y_m, z_m]),
    );
    let square = 0;
    let count = 0;
    points.forEach((point, p) => {
      listening([point.x_m, point.y_m, point.z_m]).forEach(({ re, im }, s) => {
        re.forEach((x, f) => {
          const at = (p * seats.length + s) * hz.length + f;
          const ours = Math.hypot(map.re[at] ?? 0, map.im[at] ?? 0);
          square += (20 * Math.log10(ours / Math.hypot(x, im[f] ?? 0))) ** 2;
          count++;
        });
      });
    });
    expect(count).toBe(points.length * seats.length * hz.length);
    expect(Math.sqrt(square / count)).toBeLessThan(0.1);
  });

  test('is reciprocal: source and seat exchanged give the same', () => {
    const [seat, point] = [seats[0], points[7]];
    if (!seat || !point) throw new Error('no such place');
    const back = allAtOnce(mapOfBox(() => box, medium, hz, [point], [seat]));
    const at = 7 * seats.length * hz.length;
    const scale = Math.max(...back.re.map(Math.abs));
    expectNear(map.re.slice(at, at + hz.length), back.re, 0.005 * scale, 'Pa·s/m³');
    expectNear(map.im.slice(at, at + hz.length), back.im, 0.005 * scale, 'Pa·s/m³');
  });
});
