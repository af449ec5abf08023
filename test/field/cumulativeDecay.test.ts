// Cumulative decay against what theory says of a single mode: it falls by 60 dB in 3 ln 10/δ.
import { expect, test } from 'vitest';
import { decayTime_s, modalDamping_per_s } from '../../core/acoustics/modalDecay.ts';
import { decayAtSeat } from '../../core/withField.ts';
import { geometrySetup } from '../support/findingsOf.ts';
import { box, gear, point, seat, spaceWith, stereoRoom, subwoofer } from '../support/rooms.ts';

/** Plays nothing below, where the room is a spring and takes long to relax. */
const SUB = gear('deep', 'subwoofer', {
  lowEnd: {
    minus6db_hz: 40,
    slope_db_oct: 24,
    kind: 'vented',
    protection: null,
    responseFile: null,
  },
});
const BETA = 0.03;
const SIZE = { x_m: 4, y_m: 5.2, z_m: 2.6 };

test('the second mode of the depth rings as long as its damping says (Morse & Ingard, §9.4)', () => {
  const covering = { kind: 'admittance', real: BETA, imaginary: 0 } as const;
  const surfaces = ['floor', 'ceiling', 'front', 'right', 'back', 'left'].map((name) => ({
    name,
    covering,
  }));
  const setup = geometrySetup(
    stereoRoom({
      space: spaceWith({ shape: box(SIZE.x_m, SIZE.y_m, SIZE.z_m), surfaces }),
      seats: [seat('mix', point(2, 4.9, 1.3))],
      speakers: [],
      // On the nodes of the first modes of width and height, so that no neighbour rings along.
      subwoofers: [subwoofer('sub', point(2, 0.2, 1.3), { gear: SUB })],
    }),
  );
  const decay = decayAtSeat(setup, {
    of: { source: 'sub' },
    seat: 'mix',
    step_s: 0.01,
    count: 60,
  });
  const c = setup.air.speedOfSound_m_s;
  const mode_hz = c / SIZE.y_m;
  const bin = decay?.frequency_hz.findIndex((f_hz) => mode_hz <= f_hz + 0.25) ?? -1;
  const at = (time_s: number) => {
    const slice = decay?.time_s.findIndex((t) => time_s <= t + 1e-9) ?? -1;
    return decay?.level_db[slice]?.[bin] ?? Number.NaN;
  };
  const betas = [BETA, BETA, BETA, BETA, BETA, BETA] as const;
  const want_s = decayTime_s(modalDamping_per_s([0, 2, 0], SIZE, c, betas));
  const fall_db = at(0.1) - at(0.3);
  expect((60 * 0.2) / fall_db / want_s).toBeGreaterThan(0.93);
  expect((60 * 0.2) / fall_db / want_s).toBeLessThan(1.07);
});

test('nothing is louder later, but for a hair; unknown names give null', () => {
  const setup = geometrySetup(stereoRoom({ subwoofers: [subwoofer('sub', point(1.4, 0.4, 0.3))] }));
  const request = { of: { source: 'sub' }, seat: 'mix', step_s: 0.05, count: 12 };
  const decay = decayAtSeat(setup, request);
  const total = (decay?.level_db ?? []).map((slice) =>
    slice.reduce((sum, level) => sum + 10 ** (level / 10), 0),
  );
  expect(total.length).toBe(12);
  total.slice(1).forEach((power, i) => {
    expect(power).toBeLessThan((total[i] ?? 0) * 1.05);
  });
  expect(decayAtSeat(setup, { ...request, seat: 'nobody' })).toBeNull();
  expect(decayAtSeat(setup, { ...request, of: { source: 'nothing' } })).toBeNull();
});
