// The low end on the sheet: every figure the field's own, every curve where its scale says, every map's colour in order.

import { describe, expect, test } from 'vitest';
import type { FieldMap } from '../../core/fieldFigures.ts';
import type { Setup } from '../../core/setup.ts';
import { curveGroups } from '../../server/sheet/lowEnd/curveGroups.ts';
import { frameFor } from '../../server/sheet/plan/frame.ts';
import {
  BAND_COLORS,
  BAND_DB,
  pressureBands,
  topOf,
} from '../../server/sheet/plan/pressureBands.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { demoField } from '../support/demoField.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { stereoSetup } from '../support/setups.ts';

const ROOMS = demoRooms();

function roomNamed(name: string): Setup {
  const room = ROOMS.find((one) => one.name === name);
  if (room === undefined) throw new RangeError(`no demo room ${name}`);
  return room.setup;
}

function sectionOf(html: string, id: string): string {
  const from = html.indexOf(`id="${id}" aria-labelledby`);
  return html.slice(from, html.indexOf('<section class="part"', from));
}

function textOf(html: string): string {
  return html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
}

describe.each(['heron', 'wren'])('%s', (name) => {
  const setup = demoField(name);
  const html = renderSheet(setup, []);
  const section = sectionOf(html, 'low-end');
  const { field } = setup;
  const seat = field?.seats.find((one) => one.seat === setup.referenceSeat);

  test('says what the field says: span, dip and peak of each channel at each seat', () => {
    const text = textOf(section).replaceAll('\u2212', '-');
    let count = 0;
    for (const { channels } of field?.seats ?? [])
      for (const { extremes } of channels) {
        if (extremes === null) continue;
        count += 1;
        expect(text).toContain(`±${extremes.plusMinus_db.toFixed(1)} dB`);
        expect(text).toContain(`${extremes.dip.level_db.toFixed(1)} dB at `);
        expect(text).toContain(`+${extremes.peak.level_db.toFixed(1)} dB at `);
      }
    expect(count).toBeGreaterThanOrEqual(4);
    expect(textOf(html.slice(html.indexOf('class="glance"'), html.indexOf('id="room"')))).toMatch(
      /Low end ±\d/,
    );
  });

  test('every curve is drawn true: read back from the chart, within a quarter of a decibel', () => {
    const [chart = ''] = section.match(/<figure[^>]*>[\s\S]*?<\/figure>/) ?? [];
    const ticks = [
      ...chart.matchAll(/<text x="40" y="([\d.]+)" text-anchor="end">(.?\d+)<\/text>/g),
    ];
    const places = ticks.map(([, y = '', text = '']) => ({
      y: Number(y),
      level_db: Number(text.replace('\u2212', '-')),
    }));
    const [low, high] = [places.at(0), places.at(-1)];
    if (!low || !high || low === high) throw new RangeError('two words on the axis');
    const db_px = (high.level_db - low.level_db) / (high.y - low.y);
    // The field is 1000 high in its own units and 250 − 34 − 20 px on the page, 20 px (and 4 for the words) down.
    const toLevel = (y: number): number => low.level_db + ((y / 1000) * 196 + 24 - low.y) * db_px;
    const [, path = ''] = chart.match(/class="curve curve-sum" d="([^"]+)"/) ?? [];
    const points = path
      .slice(1)
      .split('L')
      .map((pair) => pair.split(',').map(Number));
    const group = field && seat ? curveGroups(field, seat)[0] : undefined;
    const drawn = (field?.frequency_hz ?? []).flatMap((f_hz, index) =>
      20 <= f_hz && f_hz <= 200.2 ? [{ f_hz, level_db: group?.first.level_db[index] ?? 0 }] : [],
    );
    expect(points).toHaveLength(drawn.length);
    const to_hz = Math.min(200, field?.frequency_hz.at(-1) ?? 0);
    points.forEach(([x = 0, y = 0], index) => {
      const { f_hz = 0, level_db = 0 } = drawn[index] ?? {};
      expect(20 * (to_hz / 20) ** (x / 1000)).toBeCloseTo(f_hz, 0);
      expect(Math.abs(toLevel(y) - level_db)).toBeLessThan(0.25);
    });
  });

  test('has the envelope, the statistics above Schroeder, both polarities, a map or two, and what to trust', () => {
    expect(section).toContain('class="envelope" d="M');
    const schroeder = field?.schroeder_hz ?? 0;
    expect(textOf(section)).toContain(`statistics above ${schroeder.toFixed(0)} Hz`);
    expect(section).toContain('polarity turned');
    expect(section.match(/class="pressure"/g)).toHaveLength(2);
    expect(textOf(section)).toContain('12 slightly different rooms');
  });

  test('keeps the manners of every section', () => {
    const body = html.slice(html.indexOf('<body>'));
    expect(body.match(/\sstyle=/gi)).toBeNull();
    expect(textOf(body).match(/.{20}(?:\bNaN\b|Infinity|undefined|\[object).{20}/g)).toBeNull();
    expect(body.match(/="[^"]*(?:NaN|Infinity|undefined)[^"]*"/g)).toBeNull();
    const ids = [...body.matchAll(/\sid="([^"]+)"/g)].map(([, id]) => id);
    expect(new Set(ids).size).toBe(ids.length);
  });
});

test('before it is known it says so; where there is none it points to the notes', () => {
  expect(textOf(sectionOf(renderSheet(stereoSetup(), []), 'low-end'))).toContain(
    'Being worked out',
  );
  const none = renderSheet({ ...stereoSetup(), field: null }, []);
  expect(textOf(sectionOf(none, 'low-end'))).toContain('the notes below say why');
});

test('what the file states as measured is not called a decision or a prediction', () => {
  const { room, space } = roomNamed('heron');
  const unsigned = { ...roomNamed('heron'), room: { ...room, signedOff: null } };
  expect(space?.decayTime?.from).toBe('measured');
  expect(
    textOf(sectionOf(`${renderSheet(unsigned, [])}<section class="part"`, 'sign-off')),
  ).toMatch(/Not signed off\. Decay times.*: measured, as the file states; every other figure/);
});

describe('bands of pressure', () => {
  const map: FieldMap = {
    frequency_hz: 40,
    height_m: 1.2,
    x_m: [0.5, 1.5, 2.5],
    y_m: [0.5, 1.5],
    level_db: [90, 90, 86.9, 50, null, 86.9],
  };
  const frame = frameFor({ left_m: 0, right_m: 3, top_m: 0, bottom_m: 2 }, 300, 200, {
    left: 0,
    right: 0,
    top: 0,
    bottom: 0,
  });

  test('equal levels side by side are one piece; outside the plan there is none; what is far below is in the lowest', () => {
    expect(topOf(map)).toBe(90);
    const bands = pressureBands(map, frame);
    const pieces = bands.map(({ path }) => path.match(/M/g)?.length ?? 0);
    expect(pieces).toEqual([1, 0, 0, 0, 0, 0, 0, 0, 2, 1]);
    // By hand: two cells of 1 m at 100 units a metre, from the upper left corner.
    expect(bands.at(-1)?.path).toMatch(/^M0 0h200/);
    expect(bands.at(-1)?.from_db).toBe(90 - BAND_DB);
  });

  test('each band is lighter than the one below it (relative luminance of WCAG 2.2), so that grey prints say the same', () => {
    const linear = (value: number): number =>
      value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    const luminance = BAND_COLORS.map((color) => {
      const [r = 0, g = 0, b = 0] = [1, 3, 5].map((at) =>
        linear(Number.parseInt(color.slice(at, at + 2), 16) / 255),
      );
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    });
    luminance.slice(1).forEach((value, index) => {
      expect(value).toBeGreaterThan(luminance[index] ?? 1);
    });
  });
});

describe('what follows from the field in other sections', () => {
  const box = demoField('heron');
  const sloped = demoField('wren');

  test('a room that is no box has its modes by finite elements, each in chart and table', () => {
    const section = sectionOf(renderSheet(sloped, []), 'modes');
    const count = sloped.field?.modes?.length ?? 0;
    expect(count).toBeGreaterThan(20);
    expect(section.match(/class="mode mode-other"><title>/g)).toHaveLength(count);
    expect(section.match(/<td>whole room<\/td>/g)).toHaveLength(count);
    expect(textOf(section)).toContain('By finite elements');
  });

  test('a box has the modes of the formula, by kind', () => {
    const section = sectionOf(renderSheet(box, []), 'modes');
    expect(section).not.toContain('mode-other');
    expect(section.match(/class="mode mode-axial"><title>/g)?.length).toBeGreaterThan(5);
  });

  test('surfaces near the loudspeakers are drawn over frequency; equal curves once', () => {
    const section = sectionOf(renderSheet(box, []), 'boundaries');
    expect(box.field?.boundaries.map(({ source }) => source)).toEqual(['left', 'right']);
    expect(section.match(/class="curve curve-main" d="M[\d.]+,/g)).toHaveLength(1);
    expect(textOf(section)).toContain('left and right');
  });

  test('the fading is drawn slice by slice, and said in words', () => {
    const section = sectionOf(renderSheet(box, []), 'low-end');
    expect(section.match(/class="curve slice slice-\d" d="M[\d.]+,/g)).toHaveLength(5);
    expect(textOf(section)).toMatch(/after 400 ms it has fallen by \d+\.\d dB/);
  });
});
