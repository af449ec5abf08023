// The pressure map against the exact point-to-point transfer, itself held against outside data in box.test.ts.
import { expect, test } from 'vitest';
import { boxTransfer_pa_s_m3 } from '../../core/acoustics/field/boxTransfer.ts';
import { pressureMap } from '../../core/acoustics/field/pressureMap.ts';

test('the map is the exact transfer at its places, half a metre and more from the source', () => {
  const soft = { real: 0.02, imaginary: 0 };
  const hard = { real: 0.1, imaginary: 0.05 };
  const box = [
    { length_m: 4.7, walls: [soft, hard] as const },
    { length_m: 6.2, walls: [hard, soft] as const },
    { length_m: 2.9, walls: [soft, soft] as const },
  ] as const;
  const medium = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
  const x_m = [0.1, 1.3, 2.35, 4.6];
  const y_m = [0.2, 2.2, 5.9];
  for (const frequency_hz of [27, 55, 118]) {
    const { re, im } = pressureMap(box, medium, frequency_hz, [0.8, 0.9, 0.3], 1.2, x_m, y_m);
    y_m.forEach((y, r) => {
      x_m.forEach((x, c) => {
        const want = boxTransfer_pa_s_m3(box, medium, frequency_hz, [0.8, 0.9, 0.3], [x, y, 1.2]);
        const at = r * x_m.length + c;
        const off = Math.hypot((re[at] ?? 0) - want[0], (im[at] ?? 0) - want[1]);
        expect(off / Math.hypot(...want)).toBeLessThan(0.01);
      });
    });
  }
});
