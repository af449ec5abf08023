// The box's field against exact solutions made with general scientific libraries (test/field/data/*.json, `source` in each).
import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { prepareBoxField } from '../../core/acoustics/field/boxField.ts';
import { type Box, boxTransfer_pa_s_m3 } from '../../core/acoustics/field/boxTransfer.ts';

interface Forced {
  readonly inputs: {
    readonly room_m: readonly [number, number, number];
    readonly beta_x0_xL_y0_yL_z0_zL: readonly number[];
    readonly source_m: readonly [number, number, number];
    readonly receivers_m: readonly (readonly [number, number, number])[];
    readonly f_hz: readonly number[];
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
  };
  readonly expected: {
    readonly p_exact: readonly { readonly re: number[]; readonly im: number[] }[];
  };
}

const FILES = [
  'forced_rect_uniform_0p01',
  'forced_rect_uniform_0p02',
  'forced_rect_uniform_0p05',
  'forced_rect_per_wall',
];

describe.each(FILES)('%s', (name) => {
  const { inputs, expected }: Forced = JSON.parse(
    readFileSync(new URL(`data/${name}.json`, import.meta.url), 'utf8'),
  );
  const walls = inputs.beta_x0_xL_y0_yL_z0_zL;
  const wall = (i: number) => ({ real: walls[i] ?? 0, imaginary: 0 });
  const axis = (i: number) => ({
    length_m: inputs.room_m[i] ?? 0,
    walls: [wall(2 * i), wall(2 * i + 1)] as const,
  });
  const box: Box = [axis(0), axis(1), axis(2)];
  const medium = { speedOfSound_m_s: inputs.c_m_s, density_kg_m3: inputs.rho_kg_m3 };

  test('exact transfer agrees to the nine digits that the data keeps', () => {
    inputs.receivers_m.forEach((receiver, r) => {
      const { re, im } = expected.p_exact[r] ?? { re: [], im: [] };
      expect(re.length).toBe(inputs.f_hz.length);
      const rms = Math.sqrt(
        re.reduce((sum, x, i) => sum + x * x + (im[i] ?? 0) ** 2, 0) / re.length,
      );
      // Every seventh frequency: the quick field below is held against all of them.
      for (let i = 0; i < inputs.f_hz.length; i += 7) {
        const [x, y] = boxTransfer_pa_s_m3(
          box,
          medium,
          inputs.f_hz[i] ?? 0,
          inputs.source_m,
          receiver,
        );
        expect(Math.hypot(x - (re[i] ?? 0), y - (im[i] ?? 0)) / rms).toBeLessThan(2e-8);
      }
    });
  });

  test('quick field: within 0.005 dB RMS and 0.05 dB worst, all frequencies', () => {
    const transfers = prepareBoxField(() => box, medium, inputs.f_hz).listenAt(inputs.receivers_m)(
      inputs.source_m,
    );
    let square = 0;
    let count = 0;
    let worst_db = 0;
    transfers.forEach(({ re, im }, r) => {
      const want = expected.p_exact[r] ?? { re: [], im: [] };
      want.re.forEach((x, i) => {
        const got = Math.hypot(re[i] ?? 0, im[i] ?? 0);
        const off_db = 20 * Math.log10(got / Math.hypot(x, want.im[i] ?? 0));
        square += off_db ** 2;
        count++;
        worst_db = Math.max(worst_db, Math.abs(off_db));
      });
    });
    expect(count).toBe(inputs.receivers_m.length * inputs.f_hz.length);
    expect(Math.sqrt(square / count)).toBeLessThan(0.005);
    expect(worst_db).toBeLessThan(0.05);
  });

  test('source and receiver may be exchanged (reciprocity)', () => {
    const receiver = inputs.receivers_m[0] ?? [0, 0, 0];
    for (const frequency_hz of [23, 61, 118, 177]) {
      const there = boxTransfer_pa_s_m3(box, medium, frequency_hz, inputs.source_m, receiver);
      const back = boxTransfer_pa_s_m3(box, medium, frequency_hz, receiver, inputs.source_m);
      expect(there[0]).toBeCloseTo(back[0], 8);
      expect(there[1]).toBeCloseTo(back[1], 8);
    }
  });
});
