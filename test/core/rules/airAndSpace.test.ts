// Rules on the air and the room: air/out-of-range, space/proportions, whole-number-ratio, bonello, coincident-modes, decay-time,
// floor-area, seat-at-mid-length, unequal-sides.

import { describe, expect, test } from 'vitest';
import { airOutOfRange } from '../../../core/rules/air/outOfRange.ts';
import { decayMask_s } from '../../../core/rules/decayMask.ts';
import { spaceBonello } from '../../../core/rules/space/bonello.ts';
import { spaceCoincidentModes } from '../../../core/rules/space/coincidentModes.ts';
import { spaceDecayTime } from '../../../core/rules/space/decayTime.ts';
import { spaceFloorArea } from '../../../core/rules/space/floorArea.ts';
import { spaceProportions } from '../../../core/rules/space/proportions.ts';
import { spaceSeatAtMidLength } from '../../../core/rules/space/seatAtMidLength.ts';
import { spaceUnequalSides } from '../../../core/rules/space/unequalSides.ts';
import { spaceWholeNumberRatio } from '../../../core/rules/space/wholeNumberRatio.ts';
import type { AirGiven, Space } from '../../../schema/model/room.ts';
import { expectNear } from '../../support/expectNear.ts';
import { findingsOf, told } from '../../support/findingsOf.ts';
import {
  box,
  EMPTY_ROOM,
  plan,
  point,
  policyWith,
  roomWith,
  seat,
  spaceWith,
} from '../../support/rooms.ts';

const FOOT_M = 0.3048;
const AIR_1130_FT: AirGiven = { ...EMPTY_ROOM.air, speedOfSound_m_s: 1130 * FOOT_M };

function inBox(width_m: number, depth_m: number, height_m: number, more: Partial<Space> = {}) {
  return roomWith({ space: spaceWith({ shape: box(width_m, depth_m, height_m), ...more }) });
}

const PLAN = plan({ front: [0, 0], right: [4, 0], back: [4, 5], left: [0, 5] }, 2.5);
const WITHOUT_BOX = [EMPTY_ROOM, roomWith({ space: spaceWith({ shape: PLAN }) })];

describe('air/out-of-range', () => {
  const given = (air: Partial<AirGiven>) => roomWith({ air: { ...EMPTY_ROOM.air, ...air } });

  test('outside 0 to 30 °C and 75 to 102 kPa (Cramer 1993)', () => {
    const room = given({ temperature_k: 304.15, pressure_pa: 70_000, speedOfSound_m_s: 360 });
    expect(told(findingsOf(airOutOfRange, room))).toEqual([
      'space.air.temperature: A temperature of 31.0 °C is outside 0.0 °C to 30.0 °C',
      'space.air.pressure: A pressure of 700 hPa is outside 750 hPa to 1020 hPa',
      'space.air.speed_of_sound: A speed of sound of 360.0 m/s is outside 331.4 m/s to 351.5 m/s',
    ]);
  });

  test('the ends of the range, and nothing recorded, are quiet', () => {
    expect(findingsOf(airOutOfRange, given({ temperature_k: 303.15 }))).toEqual([]);
    expect(findingsOf(airOutOfRange, given({ temperature_k: 273.15 }))).toEqual([]);
    expect(findingsOf(airOutOfRange, EMPTY_ROOM)).toEqual([]);
  });
});

describe('space/proportions', () => {
  test('4 × 4 × 3 m: 1.33 is less than 1.1 times 1.33 (Walker, BBC RD 1993/8)', () => {
    const [finding] = findingsOf(spaceProportions, inBox(4, 4, 3));
    expect(finding?.message).toBe(
      'Length is 1.33 times the height, 1.47 to 2.00 are asked for where the width is 1.33 times',
    );
    expectNear(finding?.limit?.value ?? 0, 1.1 * (4 / 3), 1e-12, '1');
    expect(finding?.severity).toBe('information');
  });

  test('Sepmeyer A, 1 : 1.14 : 1.39, fails: at most 4.5 × 1.14 − 4 = 1.13', () => {
    const [finding] = findingsOf(spaceProportions, inBox(1.14 * 3, 1.39 * 3, 3));
    expect(finding?.message).toContain('no length suits a width of 1.14 times');
  });

  test('6.36 × 4.44 × 3 m passes; other shapes are quiet', () => {
    for (const room of [inBox(4.44, 6.36, 3), inBox(6.36, 4.44, 3), ...WITHOUT_BOX]) {
      expect(findingsOf(spaceProportions, room)).toEqual([]);
    }
  });
});

describe('space/whole-number-ratio', () => {
  test('within ±5 % of a whole number (EBU Tech 3276 App. 2)', () => {
    expect(told(findingsOf(spaceWholeNumberRatio, inBox(4.2, 6.2, 3)))).toEqual([
      'space.size: Length is nearly 2 times the height (2.07)',
    ]);
    expect(told(findingsOf(spaceWholeNumberRatio, inBox(4.2, 4.2, 3)))).toEqual([
      'space.size: Length and width are nearly equal (1.00 : 1)',
    ]);
  });

  test('2.1 times is the edge; beyond it, and other shapes, quiet', () => {
    expect(findingsOf(spaceWholeNumberRatio, inBox(4.2, 6.3, 3)).length).toBe(1);
    for (const room of [inBox(4.2, 6.31, 3), ...WITHOUT_BOX]) {
      expect(findingsOf(spaceWholeNumberRatio, room)).toEqual([]);
    }
  });
});

describe('space/bonello', () => {
  const feet = (width: number, depth: number, height: number) => ({
    ...inBox(width * FOOT_M, depth * FOOT_M, height * FOOT_M),
    air: AIR_1130_FT,
  });

  test('16 × 12 × 8 ft falls at 40 Hz and has pairs in bands of three', () => {
    // counts 20–200 Hz: 0 0 1 0 1 3 3 6 10 21 33, by enumeration at 1130 ft/s
    const [finding] = findingsOf(spaceBonello, feet(12, 16, 8));
    expect(finding?.message).toMatch(/^Fewer modes than in the band below at 40 Hz; coincident/);
    expect(finding?.severity).toBe('information');
  });

  test('23 × 17 × 9 ft passes (Handbook for Sound Engineers, p. 133); other shapes are quiet', () => {
    for (const room of [feet(17, 23, 9), ...WITHOUT_BOX]) {
      expect(findingsOf(spaceBonello, room)).toEqual([]);
    }
  });

  test('one fall among the lowest bands is a hint: the room is small', () => {
    // 6.36 × 4.44 × 3 m at 343 m/s: 0 1 0 1 2 …, one fall at 31.5 Hz
    const air = { ...EMPTY_ROOM.air, speedOfSound_m_s: 343 };
    const [finding] = findingsOf(spaceBonello, { ...inBox(4.44, 6.36, 3), air });
    expect(finding?.message).toBe('Fewer modes than in the band below at 31.5 Hz');
    expect(finding?.severity).toBe('hint');
  });
});

describe('space/coincident-modes', () => {
  test('a cube: all three dimensions meet', () => {
    const [finding] = findingsOf(spaceCoincidentModes, {
      ...inBox(3, 3, 3),
      air: { ...EMPTY_ROOM.air, speedOfSound_m_s: 342 },
    });
    // 342/(2 × 3) = 57 Hz and its double
    expect(finding?.message).toContain('at 57 Hz');
    expect(finding?.message).toContain('at 114 Hz');
  });

  test('1 Hz apart is the edge', () => {
    const apart = (second_hz: number) => ({
      ...inBox(342 / 100, 342 / (2 * second_hz), 2.4), // 50 Hz across, 71 Hz up
      air: { ...EMPTY_ROOM.air, speedOfSound_m_s: 342 },
    });
    expect(findingsOf(spaceCoincidentModes, apart(50.9)).length).toBe(1);
    expect(findingsOf(spaceCoincidentModes, apart(58))).toEqual([]);
  });

  test('other shapes are quiet', () => {
    for (const room of WITHOUT_BOX) expect(findingsOf(spaceCoincidentModes, room)).toEqual([]);
  });
});

describe('space/decay-time', () => {
  /** 100 m³: nominal 0.25 s. */
  const decay = (bands: readonly (readonly [number, number])[], policy = {}) =>
    roomWith({
      ...inBox(5, 5, 4, {
        decayTime_s: { frequency_hz: bands.map(([f]) => f), value: bands.map(([, t]) => t) },
      }),
      policy: policyWith(policy),
    });

  /** @source EBU Tech 3276 for V = 100 m³: 0.25 ± 0.05 s; +0.3 s at 63 Hz, straight over log f; ±0.1 s above 4 kHz */
  test.each([
    [63, 0.2, 0.55],
    [200, 0.2, 0.3],
    [1000, 0.2, 0.3],
    [4000, 0.2, 0.3],
    [8000, 0.15, 0.35],
    [112.25, 0.2, 0.425], // half-way between 63 and 200 Hz over the logarithm
  ])('mask at %d Hz', (frequency_hz, least_s, most_s) => {
    const mask = decayMask_s(0.25, frequency_hz, null);
    expectNear([mask?.least_s ?? 0, mask?.most_s ?? 0], [least_s, most_s], 1e-4, 's');
  });

  test('no limit outside 63 Hz to 8 kHz', () => {
    expect(decayMask_s(0.25, 50, null)).toBeNull();
    expect(decayMask_s(0.25, 16_000, null)).toBeNull();
  });

  test('too long in the bass, too short in the middle: one finding, the worst as its figure', () => {
    const [finding, ...others] = findingsOf(
      spaceDecayTime,
      decay([
        [63, 0.62],
        [125, 0.35],
        [1000, 0.12],
      ]),
    );
    expect(finding?.message).toBe(
      'Decay time too long at 63 Hz, too short at 1 kHz, most at 1 kHz: 0.12 s, at least 0.20 s is asked for',
    );
    expect(finding?.measured?.value).toBe(0.12); // 0.08 s off, the other 0.07 s
    expect(others).toEqual([]);
  });

  test('one band alone', () => {
    expect(told(findingsOf(spaceDecayTime, decay([[500, 0.4]])))).toEqual([
      'space.decay_time: Decay time too long at 500 Hz: 0.40 s, at most 0.30 s is asked for',
    ]);
  });

  test('on the line, and without a measurement, quiet', () => {
    const onTheLine = decay([
      [63, 0.55],
      [1000, 0.3],
    ]);
    for (const room of [onTheLine, EMPTY_ROOM, inBox(5, 5, 4)]) {
      expect(findingsOf(spaceDecayTime, room)).toEqual([]);
    }
  });

  test('a policy’s tolerance is a share of the nominal time', () => {
    const room = decay([[1000, 0.32]], { tolerances: { decay_time: 0.4 } });
    expect(findingsOf(spaceDecayTime, room)).toEqual([]); // 0.25 s ± 40 % reaches to 0.35 s
  });
});

describe('space/floor-area', () => {
  test.each([
    [4, 4.9, 2.5, 'A floor of 19.6 m²: the listening-room standards begin at 20.0 m²'],
    [8, 9, 3, 'A floor of 72.0 m²: the listening-room standards end at 70.0 m²'],
    [7, 9, 5, 'A volume of 315.0 m³: the listening-room standards end at 300.0 m³'],
  ])('%d × %d × %d m', (width_m, depth_m, height_m, want) => {
    const [finding] = findingsOf(spaceFloorArea, inBox(width_m, depth_m, height_m));
    expect(finding?.message).toBe(want);
    expect(finding?.severity).toBe('hint');
  });

  test('20 and 70 m² are within; no size is quiet', () => {
    for (const room of [inBox(4, 5, 2.5), inBox(7, 10, 4), EMPTY_ROOM]) {
      expect(findingsOf(spaceFloorArea, room)).toEqual([]);
    }
  });
});

describe('space/seat-at-mid-length', () => {
  const seatAt = (y_m: number, isReference = true) =>
    roomWith({
      ...inBox(5, 6, 3),
      air: { ...EMPTY_ROOM.air, speedOfSound_m_s: 342 },
      seats: [
        seat('front', point(2.5, 1, 1.2)),
        seat('mix', point(2.5, y_m, 1.2), { isReference }),
      ],
    });

  test('half-way the first mode of the depth is not heard: c/(2 × 6 m) = 28.5 Hz', () => {
    expect(told(findingsOf(spaceSeatAtMidLength, seatAt(3)))).toEqual([
      'seats.mix.at.y: mix is half-way between front and back wall: no sound of the mode at 28.5 Hz',
    ]);
  });

  test('20 dB of it are left at 0.19 m from the middle: sin(π d/6) = 0.1', () => {
    expect(findingsOf(spaceSeatAtMidLength, seatAt(3.18)).length).toBe(1);
    expect(findingsOf(spaceSeatAtMidLength, seatAt(3.2))).toEqual([]);
  });

  test('at another seat it is a hint; other shapes are quiet', () => {
    const [finding] = findingsOf(spaceSeatAtMidLength, seatAt(3, false));
    expect(finding?.severity).toBe('hint');
    for (const room of WITHOUT_BOX) expect(findingsOf(spaceSeatAtMidLength, room)).toEqual([]);
  });
});

describe('space/unequal-sides', () => {
  const seatAt = (x_m: number) =>
    roomWith({ ...inBox(5, 6, 3), seats: [seat('mix', point(x_m, 2, 1.2))] });

  test('off the middle between the side walls, with a fix that centres it', () => {
    const [finding] = findingsOf(spaceUnequalSides, seatAt(2.2));
    expect(finding?.message).toBe('mix is 2.20 m from the left wall and 2.80 m from the right one');
    expect(finding?.fixes[0]?.edits).toEqual([
      { do: 'set', path: ['seats', 'mix', 'at', 'x'], value: '2.50 m' },
    ]);
  });

  test('a decimetre is the edge; other shapes and no seat are quiet', () => {
    for (const room of [seatAt(2.4), inBox(5, 6, 3), ...WITHOUT_BOX]) {
      expect(findingsOf(spaceUnequalSides, room)).toEqual([]);
    }
  });
});
