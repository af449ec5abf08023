// The sheet's section of measurements: curves over the plan, tables, decay over its mask, averages, and what is still to be measured.

import { beforeAll, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { measuredRoom, SESSIONS } from './measuredRoom.ts';

let setup: Setup;
let section: string;
beforeAll(async () => {
  setup = await setupOf(SESSIONS);
  section = sectionOf(renderSheet(setup, []));
});

async function setupOf(sessions: string): Promise<Setup> {
  const { setup: made } = await measuredRoom(sessions);
  if (made === null) throw new RangeError('no setup');
  return made;
}

function sectionOf(html: string): string {
  const from = html.indexOf('<section class="part" id="measurements"');
  return html.slice(from, html.indexOf('<section class="part"', from + 1));
}

function textOf(html: string): string {
  return html.replace(/<[^>]+>/g, ' ').replace(/\s+/g, ' ');
}

test('each take in a row with arrival, polarity, level and its fit; what was not read says why', () => {
  const text = textOf(section);
  const fits = setup.verification?.takes.find(({ take }) => take === 'left')?.summary ?? '?';
  expect(text).toMatch(/left left, driven on L mix 7\.50 ms upright −[45]\.\d dB/);
  expect(text).toContain(fits.replace(/-(?=\d)/g, '−'));
  expect(text).toMatch(/sub_text sub, driven on L mix — — 7\d\.\d dB SPL/);
  expect(text).toContain('broken not read: this is no WAV file');
  for (const take of ['left', 'sub_text', 'broken'])
    expect(section).toContain(`["sessions","autumn","takes","${take}"]`.replaceAll('"', '&quot;'));
});

test('measured over planned: lines that differ by form, the envelope behind, said for who cannot see', () => {
  const charts = section.match(/<figure[^>]*>.*?<\/figure>/gs) ?? [];
  const compared = charts.filter((chart) => chart.includes('curve-planned'));
  const count = setup.verification?.takes.filter(({ response }) => response !== null).length ?? 0;
  expect(count).toBeGreaterThan(0);
  expect(compared.length).toBe(count);
  for (const chart of compared) {
    expect(chart).toContain('class="curve curve-measured"');
    expect(chart).toContain('class="envelope"');
    expect(chart).toMatch(/aria-label="Level over frequency of \w+, measured over planned: /);
    expect(chart).not.toContain('NaN');
  }
});

test('decay by octave: the mask of EBU Tech 3276 for this room, marks of different form, a table', () => {
  expect(section).toContain('decay-mark decay-mark-0');
  const text = textOf(section);
  // 63.5 m³: 0.25 (63.5/100)^(1/3) = 0.215 s ± 0.05 s in the middle bands.
  expect(text).toMatch(/1 kHz 0\.16 to 0\.26 s 0\.(?:29|3\d?) s/);
});

test('averages, or why there is none; what takes do not tell', () => {
  const text = textOf(section);
  expect(text).toContain('alone : mean of pressures with their phases of left');
  expect(text).toContain('No response of broken');
  expect(text).toContain('What these takes do not tell');
  expect(text).toContain('a response in text without phase holds none of them');
});

test('the recipe: takes that there are and those still to be made, with what each makes known', () => {
  const text = textOf(section);
  expect(text).toMatch(/\d+ takes of the recipe’s \d+ are still to be made/);
  expect(text).toContain('left of autumn');
  expect(text).toContain('sub_text of autumn');
  expect(text).not.toContain('broken of autumn');
  expect(text).toContain('left and sub, polarity of sub turned over');
  expect(text).toContain('the sum at the crossover');
});

test('a room without takes says so, and what to take first', async () => {
  const text = textOf(sectionOf(renderSheet(await setupOf(''), [])));
  expect(text).toContain('The file names no takes yet.');
  expect(text).toContain('still to be made');
});

test('before the files are read the section says that they are being read', () => {
  const text = textOf(sectionOf(renderSheet({ ...setup, measured: null }, [])));
  expect(text).toContain('Being read …');
});
