// The drawings' geometry: true to scale, words in free places, wiring in layers.

import { describe, expect, test } from 'vitest';
import { showFor } from '../../core/show.ts';
import { frameFor } from '../../server/sheet/plan/frame.ts';
import { overlap, placeLabels } from '../../server/sheet/plan/labels.ts';
import { extentOf } from '../../server/sheet/plan/outline.ts';
import { planLabels } from '../../server/sheet/plan/planLabels.ts';
import { thingsOf } from '../../server/sheet/plan/things.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { voltageText } from '../../server/sheet/units.ts';
import { layersOf } from '../../server/sheet/wiring/layers.ts';
import { wiringScene } from '../../server/sheet/wiring/wiringScene.ts';
import { plainValue, signed, typeset } from '../../server/sheet/words.ts';
import { demoRooms } from '../support/demoRooms.ts';

const DEMO = demoRooms();
const MARGINS = { left: 34, right: 14, top: 38, bottom: 32 };

describe.each(DEMO)('$name', ({ setup }) => {
  const { shape } = setup.room.space;
  if (shape === null) throw new Error('a demo room without a size');
  const things = thingsOf(setup);

  test.each([340, 440, 520])('is drawn to one scale at %d units', (width) => {
    const frame = frameFor(extentOf(shape), width, 580, MARGINS);
    let pairs = 0;
    for (const one of things) {
      for (const other of things) {
        const from = frame.toDrawing(one.at.x_m, one.at.y_m);
        const to = frame.toDrawing(other.at.x_m, other.at.y_m);
        // Pythagoras on both sides: what the ruler says on paper is what stands in the room.
        const drawn_m = Math.hypot(to.x - from.x, to.y - from.y) / frame.scale;
        const real_m = Math.hypot(other.at.x_m - one.at.x_m, other.at.y_m - one.at.y_m);
        expect(drawn_m).toBeCloseTo(real_m, 6);
        pairs += 1;
      }
    }
    expect(pairs).toBe(things.length ** 2);
    const { left_m, right_m, top_m, bottom_m } = frame.extent;
    const corner = frame.toDrawing(right_m, bottom_m);
    expect(corner.x).toBeLessThanOrEqual(width - MARGINS.right + 1e-6);
    expect(frame.toDrawing(left_m, top_m).x).toBeGreaterThanOrEqual(MARGINS.left - 1e-6);
  });

  test.each([340, 440, 520])('has every name once, none on another, at %d units', (width) => {
    const frame = frameFor(extentOf(shape), width, 580, MARGINS);
    const labels = planLabels({
      setup,
      show: showFor(setup.room.habits),
      frame,
      things,
      taken: [],
    });
    const names = labels
      .filter(({ key }) => key.startsWith('name-'))
      .flatMap(({ text }) => text.split(', '));
    expect([...names].sort()).toEqual(things.map(({ id }) => id).sort());
    for (const [index, one] of labels.entries()) {
      for (const other of labels.slice(index + 1)) {
        expect(overlap(one.box, other.box), `${one.text} / ${other.text}`).toBe(0);
      }
    }
  });

  test('the side view has every name once', () => {
    const html = renderSheet(setup, []);
    const side = html.split('class="drawing side"')[1]?.split('</svg>')[0] ?? '';
    const names = [...side.matchAll(/class="label label-name"[^>]*>([^<]*)</g)].flatMap(
      ([, text]) => (text ?? '').split(', '),
    );
    expect(names.sort()).toEqual(things.map(({ id }) => id).sort());
  });

  test('every wire of the file is drawn once, from its output to its input', () => {
    const { nodes, wires } = wiringScene(setup.room);
    expect(wires.map(({ index }) => index)).toEqual(setup.room.wiring.map(({ index }) => index));
    for (const [index, { points }] of wires.entries()) {
      const wire = setup.room.wiring[index];
      const from = nodes.find(({ id }) => id === wire?.from.device);
      const to = nodes.find(({ id }) => id === wire?.to.device);
      expect(points[0]?.x).toBe((from?.x ?? 0) + (from?.width ?? 0));
      expect(points.at(-1)?.x).toBe(to?.x);
    }
    for (const [index, one] of nodes.entries()) {
      for (const other of nodes.slice(index + 1)) expect(overlap(one, other)).toBe(0);
    }
  });
});

test('a word that may be left out is left out, one that is needed stays', () => {
  const field = { x: 0, y: 0, width: 60, height: 20 };
  const at = [{ x: 30, y: 10 }];
  const wish = { text: 'abc', size: 10, at };
  const labels = placeLabels(
    [
      { ...wish, key: 'first', needed: true },
      { ...wish, key: 'may', needed: false },
      { ...wish, key: 'must', needed: true },
    ],
    [],
    field,
  );
  expect(labels.map(({ key }) => key)).toEqual(['first', 'must']);
});

describe('layers', () => {
  const layer = (layers: ReturnType<typeof layersOf>, id: string): number =>
    layers.layers.findIndex((slots) => slots.some((slot) => slot.id === id));

  test('each device stands right of all that feed it', () => {
    const links = [
      { from: 'desk', to: 'sub' },
      { from: 'sub', to: 'left' },
      { from: 'desk', to: 'left' },
    ];
    const layers = layersOf(['left', 'desk', 'sub'], links);
    for (const { from, to } of links) expect(layer(layers, from)).toBeLessThan(layer(layers, to));
    // The long wire passes the layer between by a stand-in.
    expect(layers.routes[2]).toHaveLength(3);
  });

  test('a loop ends', () => {
    const layers = layersOf(
      ['a', 'b'],
      [
        { from: 'a', to: 'b' },
        { from: 'b', to: 'a' },
        { from: 'a', to: 'a' },
      ],
    );
    expect(layers.layers.flat().filter(({ id }) => id !== null)).toHaveLength(2);
  });
});

test.each([
  // 0 dBu is the voltage of 1 mW in 600 Ω, 0.775 V; +4 dBu = 1.228 V (the trade's studio level, from memory).
  { voltage_v: Math.sqrt(0.6), want: '0.0 dBu (0.77 V)' },
  { voltage_v: 1.228, want: '4.0 dBu (1.23 V)' },
])('$want', ({ voltage_v, want }) => {
  expect(voltageText(voltage_v)).toBe(want);
});

test('typography', () => {
  expect(typeset('at -3.5 dB, sub-bass, 10-20')).toBe('at −3.5 dB, sub-bass, 10-20');
  expect(signed(2, '2.0 dB')).toBe('+2.0 dB');
  expect(signed(0.01, '0.0 dB')).toBe('0.0 dB');
  expect(signed(-2, '-2.0 dB')).toBe('−2.0 dB');
  expect(plainValue('as { frequency: 80 Hz, slope: 24 dB/oct } is')).toBe('as 80 Hz, 24 dB/oct is');
});
