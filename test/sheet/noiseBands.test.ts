// Background noise on the sheet and in figures: chart and table over the NR curves, and what one figure leaves open.

import { expect, test } from 'vitest';
import { noisePart } from '../../core/parts/backgroundNoise.ts';
import type { Setup } from '../../core/setup.ts';
import type { BackgroundNoise } from '../../schema/model/room.ts';
import { spaceFigures } from '../../server/figures/spaceFigures.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { demoRooms } from '../support/demoRooms.ts';
import { stereoSetup } from '../support/setups.ts';

/** A fan's hum at 125 Hz, all else quiet; the octaves as [Hz, dB]. */
const HUM = [
  [63, 42],
  [125, 40],
  [250, 20],
  [1000, 12],
] as const;
const IN_BANDS = {
  bands: HUM.map(([frequency_hz, level_db]) => ({
    key: `${frequency_hz} Hz`,
    frequency_hz,
    level_db,
    weighting: 'Z' as const,
  })),
};

function withNoise(given: Partial<BackgroundNoise>): Setup {
  const setup = stereoSetup();
  const space = { ...setup.room.space, backgroundNoise: { nr: null, ...given } };
  return {
    ...setup,
    room: { ...setup.room, space },
    background: noisePart({ space }).background,
  };
}

function roomSection(setup: Setup): string {
  const html = renderSheet(setup, []);
  return html.split('<h2 id="room-title"')[1]?.split('</section>')[0] ?? '';
}

function textOf(html: string): string {
  return html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ');
}

test('each octave has a mark and a row beside NR 10 and NR 15 (ISO/R 1996 Table)', () => {
  const html = roomSection(withNoise(IN_BANDS));
  const chart = html.split('Background noise by octave</h3>')[1]?.split('</figure>')[0] ?? '';
  const field = chart.split('<figcaption>')[0] ?? '';
  // One octave is beyond: another form, not only another colour.
  const marks = [...field.matchAll(/class="decay-mark decay-mark-(\d)" d="([^"]+)"/g)];
  expect(marks.map(([, kind]) => kind)).toEqual(['0', '1', '0', '0']);
  expect(new Set(marks.map(([, , form]) => form)).size).toBe(2);
  const rows = (html.split('aria-label="Background noise by octave"')[1] ?? '')
    .split('<tr')
    .slice(2);
  expect(rows.length).toBe(HUM.length);
  // (40 − 22.0)/0.87 = NR 20.7; NR 10 there 30.7 dB
  expect(textOf(rows[1] ?? '')).toMatch(/125 Hz 40\.0 dB 20\.7 30\.7 35\.\d above, decides/);
  // 20 dB at 250 Hz: (20 − 12)/0.93 = NR 8.6
  expect(textOf(rows[2] ?? '')).toMatch(/250 Hz 20\.0 dB 8\.6 21\.3 2[56]\.\d within/);
  expect(textOf(html)).toContain('NR 20.7 decided at 125 Hz');
});

test('one figure has no chart, and says what it leaves open', () => {
  for (const [given, want] of [
    [{ nr: 15 }, 'Background noise NR 15'],
    [{ level: { level_db: 22, weighting: 'A' as const } }, 'Background noise 22 dBA one figure'],
    [{ nc: 20 }, 'Background noise NC 20 one figure, its bands hidden: may be NR 20 to'],
  ] as const) {
    const html = roomSection(withNoise(given));
    expect(html).not.toContain('by octave</h3>');
    expect(textOf(html)).toContain(want);
  }
});

test('figures have the keys that the page tells', () => {
  const told = JSON.parse(JSON.stringify(spaceFigures(withNoise(IN_BANDS)))).background_noise;
  expect(Object.keys(told)).toEqual([
    'from',
    'nr',
    'governing_hz',
    'nr_range',
    'nc',
    'nc_governing_hz',
    'level_dba',
    'limit_dba',
    'bands',
  ]);
  expect(told).toMatchObject({ from: 'bands', governing_hz: 125, nr_range: null });
  expect(told.nr).toBeCloseTo(20.69, 2);
  // 40 dB at 125 Hz is NC-20: ANSI/ASA S12.2
  expect(told.nc).toBeCloseTo(20, 9);
  expect(Object.keys(told.bands[0])).toEqual([
    'frequency_hz',
    'level_db',
    'nr',
    'preferred_db',
    'limit_db',
  ]);
  expect(spaceFigures({ ...stereoSetup(), background: null })).toMatchObject({
    background_noise: null,
  });
});

test('a demo room tells its noise in bands', () => {
  const shown = demoRooms().filter(({ setup }) => setup.background?.from === 'bands');
  expect(shown.map(({ name }) => name)).toContain('magpie');
});
