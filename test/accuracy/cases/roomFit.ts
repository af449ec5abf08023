// A room's model fitted to takes that an independent exact solution came to, and decays of that solution against those of single modes.

import { otherField } from '../../../core/measured/otherRoom.ts';
import { sessionPlan } from '../../../core/measured/plan.ts';
import { bandDecays, boxDampedModes, decayOff } from '../../../core/measured/roomFromTakesDecay.ts';
import {
  decayTimeOf_s,
  roomText,
  roomWithTakes,
  type Truth,
  t20Of_s,
} from '../../verify/bassTakes.ts';
import { BOX, exactBox } from '../../verify/knownRooms.ts';
import { tried } from '../../verify/wrongFile.ts';
import type { Comparison, Pair } from '../comparison.ts';

const SOURCE =
  'separable exact solution of a box with uniform admittance, NumPy and SciPy (test/field/data)';

const fitted = (seed: number) => tried(BOX, seed, 200);

const SEEDS = [1, 2, 3, 4];

export const roomFitCases: readonly Comparison[] = [
  {
    computation: 'depth of a room fitted to three takes of bass',
    source: `${SOURCE}; the file is off by up to 150 mm`,
    unit: 'm',
    tolerance: 0.06,
    because: 'twice the error that the fit tells',
    count: SEEDS.length,
    pairs: () =>
      SEEDS.map((seed) => {
        const { found, less_m } = fitted(seed);
        return {
          what: `seed ${seed}`,
          actual: found.sides[1]?.by_m ?? Number.NaN,
          expected: less_m[1] ?? 0,
        };
      }),
  },
  {
    computation: 'absorption of a room fitted to three takes of bass',
    source: `${SOURCE}; the file is off by up to a factor of 1.5`,
    unit: '',
    tolerance: 0.16,
    because: 'twice the error that the fit tells',
    relative: true,
    count: SEEDS.length,
    pairs: () =>
      SEEDS.map((seed) => {
        const { found, ratio } = fitted(seed);
        return { what: `seed ${seed}`, actual: found.absorption_ratio, expected: ratio };
      }),
  },
  {
    computation: 'T20 of the 63 Hz octave from single modes',
    source: `${SOURCE}, summed to a response, integrated backwards (ISO 3382-1); mean of three places`,
    unit: 's',
    tolerance: 0.1,
    because: 'beats between few modes; oblique modes alone would be a third too short',
    relative: true,
    count: 2,
    pairs: () => [
      decayPair(0.02, 'forced_rect_uniform_0p02'),
      decayPair(0.05, 'forced_rect_uniform_0p05'),
    ],
  },
];

const BAND_HZ = 63;

function decayPair(beta: number, file: string): Pair {
  const { inputs, expected } = exactBox(file);
  const truths = BOX.truths.map((truth, i): Truth => {
    const pressure = expected.p_exact?.[i] ?? { re: [], im: [] };
    const t20_s = t20Of_s(inputs.f_hz, pressure, BAND_HZ);
    const none = { earlyDecay_s: null, t30_s: null, modalDecay_s: null };
    return { ...truth, octaves: [{ ...none, frequency_hz: BAND_HZ, t20_s }] };
  });
  const text = roomText({ ...BOX.room, decay_s: decayTimeOf_s(BOX.room, beta) }, [0, 0, 0]);
  const setup = roomWithTakes(text, truths, 1);
  const [session] = setup.room.sessions ?? [];
  const [measured] = setup.measured?.sessions ?? [];
  const grid_hz = Array.from({ length: 80 }, (_, i) => 20 * 2 ** (i / 24));
  const takes = session === undefined ? [] : sessionPlan(setup, session, grid_hz).takes;
  const pairs = takes.flatMap((planned) => {
    const found = measured?.takes.find(({ take }) => take === planned.take.id);
    return found ? [{ planned, measured: found }] : [];
  });
  const context = otherField(setup.room, setup.air, {}, []);
  const modes = context && boxDampedModes(context);
  const [band] = bandDecays(pairs, 20, 1000);
  const off = band && modes ? decayOff(band, modes, grid_hz) : null;
  const times_s = truths.flatMap(({ octaves }) => octaves?.[0]?.t20_s ?? Number.NaN);
  const mean_s = Math.exp(times_s.reduce((sum, one) => sum + Math.log(one), 0) / times_s.length);
  // What is told is the logarithm of measured over expected, in errors.
  const expected_s = off === null || !band ? Number.NaN : mean_s / Math.exp(off * band.error_ratio);
  return { what: `β ${beta}`, actual: expected_s, expected: mean_s };
}
