// Modes by finite elements held against independent eigenfrequencies and mode values of six rooms.
import { type RoomModes, roomModes } from '../../../core/elements/roomModes.ts';
import { fieldData, point, type StoredModes } from '../../support/fieldData.ts';
import type { Comparison, Pair } from '../comparison.ts';

const ROOMS = [
  ['modes_rect', 'a rectangle', 52],
  ['modes_lshape', 'an L shape', 51],
  ['modes_trapezoid', 'splayed walls', 42],
  ['modes_splaychamfer', 'splayed and chamfered walls', 47],
  ['modes_sloped', 'a sloped ceiling', 43],
  ['modes_splaychamfer_sloped', 'all of it sloped', 48],
] as const;

const known = new Map<string, { readonly data: StoredModes; readonly modes: RoomModes }>();

/** Worked out once for all comparisons. */
function worked(name: string): { readonly data: StoredModes; readonly modes: RoomModes } {
  const before = known.get(name);
  if (before) return before;
  const data = fieldData<StoredModes>('elements', name);
  const { c_m_s, h0, ax, ay, fmax_hz, plan_polygon_m } = data.inputs;
  const plan = plan_polygon_m.map(([x_m, y_m]) => ({ x_m, y_m }));
  const ceiling = { height_m: h0, slopeX: ax, slopeY: ay };
  const found = { data, modes: roomModes({ plan, ceiling }, c_m_s, fmax_hz * 1.02) };
  known.set(name, found);
  return found;
}

function frequencies(name: string): readonly Pair[] {
  const { data, modes } = worked(name);
  const found = modes.frequency_hz.filter((f_hz) => 1 < f_hz);
  return data.expected.f_hz.map((expected, i) => ({
    what: `${name}, mode ${i + 1}`,
    actual: found[i] ?? Number.NaN,
    expected,
  }));
}

/** Modes nearer to a neighbour than 0.4 % may mix with it: their shapes are left out. */
function values(name: string): readonly Pair[] {
  const { data, modes } = worked(name);
  return data.expected.modes
    .filter(
      ({ f_hz }) =>
        data.expected.f_hz.filter((other) => Math.abs(other - f_hz) / f_hz < 0.004).length === 1,
    )
    .flatMap(({ mode_number, f_hz, abs_p_rms_normalised }) =>
      data.inputs.points_m.map((place, p) => ({
        what: `${name}, ${f_hz} Hz, point ${p + 1}`,
        actual: Math.abs(modes.shapesAt(point(place))[mode_number] ?? Number.NaN),
        expected: abs_p_rms_normalised[p] ?? Number.NaN,
      })),
    );
}

const SOURCE = 'finite elements with Richardson extrapolation, global polynomials (stored data)';

export const elementModeCases: readonly Comparison[] = [
  ...ROOMS.map(
    ([name, title, count]): Comparison => ({
      computation: `modes of ${title}`,
      source: SOURCE,
      unit: 'Hz',
      relative: true,
      tolerance: 0.002,
      because: 'the aim: 0.2 % below 150 Hz',
      count,
      pairs: () => frequencies(name),
    }),
  ),
  {
    computation: 'mode values at places',
    source: SOURCE,
    unit: 'of rms',
    tolerance: 0.01,
    because: 'values up to 3; well-separated modes only',
    count: 90,
    pairs: () => ROOMS.flatMap(([name]) => values(name)),
  },
];
