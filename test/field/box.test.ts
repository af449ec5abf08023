// The box's field: what every exact field must keep. Against independent solutions it is held in accuracy.test.ts.
import { describe, expect, test } from 'vitest';
import { prepareBoxField } from '../../core/acoustics/field/boxField.ts';
import { boxTransfer_pa_s_m3 } from '../../core/acoustics/field/boxTransfer.ts';
import { boxOf, type ForcedBox, fieldData, level_db, type Triple } from '../support/fieldData.ts';

describe.each(['forced_rect_uniform_0p01', 'forced_rect_per_wall'])('%s', (name) => {
  const data = fieldData<ForcedBox>('field', name);
  const { inputs } = data;
  const box = boxOf(data);
  const medium = { speedOfSound_m_s: inputs.c_m_s, density_kg_m3: inputs.rho_kg_m3 };
  const receiver = inputs.receivers_m[0] ?? [0, 0, 0];

  test('source and receiver may be exchanged (reciprocity)', () => {
    for (const frequency_hz of [23, 61, 118, 177]) {
      const there = boxTransfer_pa_s_m3(box, medium, frequency_hz, inputs.source_m, receiver);
      const back = boxTransfer_pa_s_m3(box, medium, frequency_hz, receiver, inputs.source_m);
      expect(there[0]).toBeCloseTo(back[0], 8);
      expect(there[1]).toBeCloseTo(back[1], 8);
    }
  });

  test('a passive room: a source next to itself gives power away, never takes any', () => {
    // Re p/Q at the source is radiated power; 15 cm off it is still that.
    const [x, y, z] = inputs.source_m;
    for (let frequency_hz = 20; frequency_hz <= 200; frequency_hz += 45) {
      const [re] = boxTransfer_pa_s_m3(box, medium, frequency_hz, inputs.source_m, [
        x + 0.06,
        y,
        z,
      ]);
      expect(re).toBeGreaterThan(0);
    }
  });

  test('the mirrored box has the same field', () => {
    const mirrored = box.map(({ length_m, walls: [low, high] }) => ({
      length_m,
      walls: [high, low] as const,
    })) as unknown as typeof box;
    const flip = (place: Triple): Triple => [
      inputs.room_m[0] - place[0],
      inputs.room_m[1] - place[1],
      inputs.room_m[2] - place[2],
    ];
    for (const frequency_hz of [31, 77, 150]) {
      const one = boxTransfer_pa_s_m3(box, medium, frequency_hz, inputs.source_m, receiver);
      const other = boxTransfer_pa_s_m3(
        mirrored,
        medium,
        frequency_hz,
        flip(inputs.source_m),
        flip(receiver),
      );
      expect(one[0]).toBeCloseTo(other[0], 6);
      expect(one[1]).toBeCloseTo(other[1], 6);
    }
  });

  test('a grid of one frequency, or of none, is answered too', () => {
    const listen = (frequency_hz: readonly number[]) =>
      prepareBoxField(() => box, medium, frequency_hz).listenAt([receiver])(inputs.source_m)[0];
    const [re, im] = boxTransfer_pa_s_m3(box, medium, 63, inputs.source_m, receiver);
    const [one, none] = [listen([63]), listen([])];
    expect(level_db(one?.re[0] ?? 0, one?.im[0] ?? 0)).toBeCloseTo(level_db(re, im), 2);
    expect(none?.re.length).toBe(0);
  });
});

test('far below the first mode the room is a spring: p = ρc²Q/(jωV) (Morse & Ingard, §9.4)', () => {
  const hard = { real: 0, imaginary: 0 };
  const axis = (length_m: number) => ({ length_m, walls: [hard, hard] as const });
  const medium = { speedOfSound_m_s: 343, density_kg_m3: 1.204 };
  const [re, im] = boxTransfer_pa_s_m3(
    [axis(4), axis(5), axis(3)],
    medium,
    1,
    [0.5, 0.5, 0.5],
    [3, 4, 2],
  );
  expect(im).toBeLessThan(0);
  expect(Math.abs(re)).toBeLessThan(1e-6 * Math.abs(im));
  expect(-im / ((1.204 * 343 ** 2) / (2 * Math.PI * 60))).toBeCloseTo(1, 2);
});
