// `groundbass figures --transfer` from a room file's text to its numbers, against an exact solution made with general scientific
// libraries (test/field/data, `source` in it); and the grid that a user asks for.

import { readFileSync } from 'node:fs';
import { createColors } from 'picocolors';
import { beforeAll, describe, expect, test } from 'vitest';
import { run } from '../../server/cli/run.ts';
import { atFrequencies, readGrid } from '../../server/figures/grid.ts';

interface Reference {
  readonly inputs: {
    readonly room_m: readonly number[];
    readonly source_m: readonly number[];
    readonly receivers_m: readonly (readonly number[])[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: {
    readonly p_exact: readonly { readonly re: readonly number[]; readonly im: readonly number[] }[];
  };
}

const { inputs, expected }: Reference = JSON.parse(
  readFileSync(new URL('../field/data/forced_rect_uniform_0p02.json', import.meta.url), 'utf8'),
);

function place([x, y, z]: readonly number[]): string {
  return `{ x: ${x} m, y: ${y} m, z: ${z} m }`;
}

/** The reference's room as a user would write it; its air is where sound goes as fast as there, as the first test says. */
const ROOM = `room: 1
space:
  size: { width: ${inputs.room_m[0]} m, depth: ${inputs.room_m[1]} m, height: ${inputs.room_m[2]} m }
  air: { temperature: 18.42 °C, humidity: 50 % }
  surfaces:
${['floor', 'ceiling', 'front', 'right', 'back', 'left'].map((name) => `    ${name}: { admittance: 0.02 }`).join('\n')}
seats:
${inputs.receivers_m.map((at, index) => `  seat_${index}: { at: ${place(at)} }`).join('\n')}
subwoofers:
  sub: { gear: any_10, at: ${place(inputs.source_m)} }
`;

async function figures(...args: readonly string[]) {
  let out = '';
  const ignore = () => undefined;
  const code = await run(['figures', '-', ...args], {
    cwd: import.meta.dirname,
    out: (text) => {
      out += text;
    },
    err: ignore,
    tell: ignore,
    readInput: async () => ROOM,
    writeFile: async () => undefined,
    colors: createColors(false),
    width: 100,
  });
  expect(code).toBe(0);
  return JSON.parse(out);
}

describe('the room alone', () => {
  let told: Awaited<ReturnType<typeof figures>>;
  beforeAll(async () => {
    told = await figures('--transfer', '--frequencies', '20:200:1');
  });

  test('in air that is the reference’s own within 2 parts in 100 000', () => {
    expect(Math.abs(told.air.speed_of_sound_m_s / inputs.c_m_s - 1)).toBeLessThan(2e-5);
  });

  test('within 0.02 dB RMS and 0.2 dB worst, 20 to 200 Hz, three seats', () => {
    let square = 0;
    let worst_db = 0;
    let count = 0;
    inputs.receivers_m.forEach((_, index) => {
      const { frequency_hz, real_pa_s_m3, imag_pa_s_m3 } = told.seats[`seat_${index}`].transfer.sub;
      expect(frequency_hz).toHaveLength(181);
      const want = expected.p_exact[index];
      frequency_hz.forEach((f_hz: number, i: number) => {
        const at = inputs.f_hz.indexOf(f_hz);
        const exact = Math.hypot(want?.re[at] ?? Number.NaN, want?.im[at] ?? Number.NaN);
        // Pressure goes with density: the reference's air is a little denser or thinner than this weather's.
        const got =
          (Math.hypot(real_pa_s_m3[i], imag_pa_s_m3[i]) * inputs.rho_kg_m3) /
          told.air.density_kg_m3;
        const off_db = 20 * Math.log10(got / exact);
        square += off_db ** 2;
        worst_db = Math.max(worst_db, Math.abs(off_db));
        count += 1;
      });
    });
    expect(count).toBe(3 * 181);
    expect(Math.sqrt(square / count)).toBeLessThan(0.02);
    expect(worst_db).toBeLessThan(0.2);
  });

  test('its sign is e^{+jωt}: the phase of the reference, within a degree where there is no dip', () => {
    const { real_pa_s_m3, imag_pa_s_m3 } = told.seats.seat_0.transfer.sub;
    const want = expected.p_exact[0];
    for (const f_hz of [20, 30, 45, 90]) {
      const at = inputs.f_hz.indexOf(f_hz);
      const phase_rad =
        Math.atan2(imag_pa_s_m3[f_hz - 20], real_pa_s_m3[f_hz - 20]) -
        Math.atan2(want?.im[at] ?? Number.NaN, want?.re[at] ?? Number.NaN);
      expect(Math.abs(Math.sin(phase_rad / 2))).toBeLessThan(Math.PI / 360);
    }
  });
});

test.each([
  ['20:200:1', 181],
  ['20:21:0.1', 11],
  ['15:15:1', 1],
  ['20:30:4', 3],
])('%s is a grid of %i frequencies (counted by hand)', (text, count) => {
  const grid_hz = readGrid(text);
  expect(grid_hz).toHaveLength(count);
  expect(grid_hz?.[0]).toBe(Number(text.split(':')[0]));
});

test.each([
  '',
  '20',
  '20:200',
  '200:20:1',
  '0:10:1',
  '20:200:0',
  '20:200:-1',
  'a:b:c',
  '1:2:3:4',
  '20:200:',
  '1:1e9:1e-9',
])('no grid: %s', (text) => {
  expect(readGrid(text)).toBeNull();
});

test('a curve is read off at other frequencies: itself at its own, the mean half way in octaves, phases the short way round', () => {
  const on = atFrequencies([20, 40, 80], [10, 20, 20 * Math.SQRT2, 80, 90]);
  expect(on.frequency_hz).toEqual([20, 20 * Math.SQRT2, 80]);
  expect(on.values([0, 6, 3])).toEqual([0, 3, 3]);
  // From 170° to −170° it is 20°, through 180°.
  const [, half = 0] = on.phases([(170 * Math.PI) / 180, (-170 * Math.PI) / 180, 0]);
  expect(Math.cos(half)).toBeCloseTo(-1, 9);
});

describe('what each source and mode comes to', () => {
  let told: Awaited<ReturnType<typeof figures>>;
  beforeAll(async () => {
    told = await figures();
  });

  test('a subwoofer that nothing drives is there by itself, at every seat', () => {
    for (const seat of Object.values<(typeof told)['seats'][string]>(told.seats)) {
      const { sub } = seat.source_response;
      expect(sub.channel).toBeNull();
      expect(sub.level_db).toHaveLength(sub.frequency_hz.length);
      expect(sub.lower_db[10]).toBeLessThanOrEqual(sub.level_db[10]);
    }
  });

  test('modes say how strongly each source drives and each seat hears them: cos(nπx/L) in each direction', () => {
    // @source Kuttruff, Room Acoustics, ch. 3: shapes of a box's modes
    const shape = (order: readonly number[], at: readonly number[]) =>
      Math.abs(
        order.reduce((product, n, axis) => {
          const share = (at[axis] ?? 0) / (inputs.room_m[axis] ?? 1);
          return product * Math.cos(n * Math.PI * share);
        }, 1),
      );
    for (const { order, driven_by, heard_at } of told.space.modes.slice(0, 12)) {
      expect(driven_by.sub).toBeCloseTo(shape(order, inputs.source_m), 2);
      inputs.receivers_m.forEach((at, index) => {
        expect(heard_at[`seat_${index}`]).toBeCloseTo(shape(order, at), 2);
      });
    }
  });
});
