// EQ fitted to takes in the preview's page, in a real browser: begun beside the measured curves, cure and harm at every measured seat,
// tried on, written.
//
// Takes: the synthesis of test/synthesis, image sources that share no line with the project's field. What a bell does is reckoned here
// by hand: |H|² of a second-order bell, (1 − u²)² + (A u / Q)² over (1 − u²)² + (u / (A Q))² with u = f / f₀ and A = 10^(gain / 40),
// the analogue prototype of the Audio EQ Cookbook (W3C Note, 2021).

import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { measuredResponses } from '../../core/equaliser/measuredResponses.ts';
import { fitRoom, type RoomFit } from '../../core/equaliser/roomFit.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import type { HostToPane } from '../../server/protocol/pane.ts';
import type { Found } from '../../server/protocol/search.ts';
import { foundFits } from '../../server/search/foundFits.ts';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { HERON } from '../synthesis/heronTruth.ts';
import { measuredTake, type PlannedTake, sessionOf } from '../synthesis/takes.ts';
import { accessibilityFaults, type Bundle, bundlePage, PaneHost } from './paneHost.ts';

const TAKES: readonly PlannedTake[] = [
  { id: 'sub_mix', drive: 'L', sounding: ['sub'], seat: 'mix' },
  { id: 'sub_producer', drive: 'L', sounding: ['sub'], seat: 'producer' },
];

let browser: Browser;
let bundle: Bundle;
let setup: Setup;
let everywhere: readonly RoomFit[];
let atMix: readonly RoomFit[];

beforeAll(async () => {
  [browser, bundle] = await Promise.all([startChromium(), bundlePage()]);
  const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
  if (heron === undefined) throw new Error('no heron');
  const { record, ...rest } = heron;
  const sessions = [sessionOf(HERON, TAKES, HERON.temperature_k)];
  const takes = TAKES.map((take, i) => measuredTake(HERON, take, 71 + i, -23, 0.003));
  const session = { session: 'seeded', path: ['sessions', 'seeded'], date: '2026-11-03' };
  setup = {
    ...withField({ ...rest, room: { ...heron.room, sessions } }, { today: null, envelope: false }),
    measured: { sessions: [{ ...session, averages: [], takes }], notes: [] },
  };
  const given = measuredResponses(setup, {})?.given ?? [];
  const both = ['mix', 'producer'];
  everywhere = fitRoom(setup, { given, seats: both, checked: both });
  atMix = fitRoom(setup, { given, seats: ['mix'], checked: both });
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

const FROM = { session: 'seeded', takes: TAKES.map(({ id }) => id) };
const foundOf = (fits: readonly RoomFit[], of: Setup = setup): Found => ({
  places: [],
  fits: foundFits(of, { fits, from: FROM }),
});

function answer(found: Found | null, version = 1): HostToPane {
  const uri = 'file:///rooms/heron.room.yaml';
  const more = found === null ? {} : { found };
  return {
    kind: 'setup',
    label: 'rooms/heron.room.yaml',
    answer: { uri, version, setup, problems: [], ...more },
  };
}

/** By hand: see above. */
function bell_db(f_hz: number, band: { frequency_hz: number; gain_db: number; q: number }): number {
  const u = f_hz / band.frequency_hz;
  const a = 10 ** (band.gain_db / 40);
  const part = (width: number) => (1 - u * u) ** 2 + (u * width) ** 2;
  return 10 * Math.log10(part(a / band.q) / part(1 / (a * band.q)));
}

const rms = (list: readonly number[]) =>
  Math.sqrt(list.reduce((sum, one) => sum + one * one, 0) / list.length);

test('the bands do the same at every seat, fitted or only checked, and that is what is shown', () => {
  for (const fits of [everywhere, atMix]) {
    const [fit] = foundOf(fits).fits;
    const bands = fits[0]?.fit.bands ?? [];
    expect(bands.length).toBeGreaterThan(0);
    expect(fit?.seats.map(({ seat, from }) => `${seat} ${from}`)).toEqual([
      'mix measurement',
      'producer measurement',
    ]);
    for (const at of fit?.seats ?? []) {
      const off_db = (fit?.frequency_hz ?? []).map((f_hz, i) => {
        const want_db = bands.reduce((sum, band) => sum + bell_db(f_hz, band), 0);
        return (at.afterLevel_db[i] ?? 0) - (at.beforeLevel_db[i] ?? 0) - want_db;
      });
      // Digital bells at 48 kHz against analogue ones, far below the Nyquist frequency.
      expect(rms(off_db)).toBeLessThan(0.02);
      const counts = (fit?.frequency_hz ?? []).map(
        (f_hz) => !at.nulls_hz.some(([from_hz, to_hz]) => from_hz <= f_hz && f_hz <= to_hz),
      );
      const away = (level_db: readonly number[]) =>
        rms(level_db.map((level, i) => level - (at.target_db[i] ?? 0)).filter((_, i) => counts[i]));
      expect(away(at.beforeLevel_db)).toBeCloseTo(at.before_db, 6);
      expect(away(at.afterLevel_db)).toBeCloseTo(at.after_db, 6);
    }
  }
});

test('one seat alone is fitted closer there, says that it is one point, and tells what it does to the other', () => {
  const [both] = foundOf(everywhere).fits;
  const [alone] = foundOf(atMix).fits;
  expect(alone?.seats.map(({ isFitted }) => isFitted)).toEqual([true, false]);
  expect(alone?.seats[0]?.after_db).toBeLessThanOrEqual((both?.seats[0]?.after_db ?? 0) + 1e-9);
  expect(alone?.remarks.join()).toContain('fitted to one point');
  expect(both?.remarks.join()).not.toContain('one point');
  // Whoever gets worse by more than an ear tells is named.
  const producer = alone?.seats[1];
  const harm_db = (producer?.after_db ?? 0) - (producer?.before_db ?? 0);
  expect(alone?.remarks.some((one) => one.startsWith('producer gets'))).toBe(0.2 < harm_db);
});

test('begun beside the measured curves: for all seats that were measured, or for the reference seat alone', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(null));
  const { page } = host;
  const part = page.locator('#measurements');
  const wanted = { kind: 'search', what: 'eq', id: 'sub', session: 'seeded' };
  const all = part.getByRole('button', { name: 'Fit EQ of sub', exact: true });
  await all.focus();
  await page.keyboard.press('Enter');
  expect(await host.said('search')).toEqual([wanted]);
  // The button that was pressed keeps the focus, and stops it.
  expect(await page.evaluate(() => document.activeElement?.textContent)).toMatch(
    /^Fitting EQ of sub … Stop$/,
  );
  await page.keyboard.press('Enter');
  expect(await host.said('stop')).toHaveLength(1);
  await host.say({ kind: 'searched', why: 'Stopped.' });
  await part.getByRole('button', { name: 'Fit EQ of sub to mix alone' }).click();
  expect((await host.said('search')).at(-1)).toEqual({ ...wanted, seats: ['mix'] });
});

test('before and after as curves and figures at each seat, bands, cost, nulls; tried on and written', async () => {
  const found = foundOf(atMix);
  const [fit] = found.fits;
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(found));
  const view = host.page.locator('#measurements .eq-fit');
  expect(await view.locator('h5').allTextContents()).toEqual(['at mix', 'at producer']);
  const labels = await view
    .locator('figure .plot-field')
    .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label') ?? ''));
  for (const [index, at] of (fit?.seats ?? []).entries()) {
    expect(labels[index]).toContain(`Measured level over frequency at ${at.seat}`);
    expect(labels[index]).toContain(
      `${at.before_db.toFixed(1)} dB from the target before, ${at.after_db.toFixed(1)} dB after`,
    );
    expect(labels[index]?.includes(at.isFitted ? 'as nulls' : 'Nulls')).toBe(
      0 < at.nulls_hz.length,
    );
  }
  expect(await view.locator('figure').first().locator('.curves path').count()).toBe(3);
  expect(await view.locator('tbody tr').nth(1).textContent()).toContain('not fitted, only checked');
  const shown = await view.locator('.dial li').allTextContents();
  // A true minus on the page.
  expect(shown.map((one) => one.replaceAll('\u2212', '-').replaceAll('\u00a0', ' '))).toEqual(
    fit?.bands,
  );
  expect(await view.locator('.remarks').textContent()).toMatch(/headroom/);
  await view.getByRole('button', { name: /^Write it into the file/ }).click();
  expect(await host.said('edit')).toEqual([
    {
      kind: 'edit',
      version: 1,
      title: 'EQ of sub, from takes of seeded',
      edits: fit?.edits,
    },
  ]);
  expect(await host.violations()).toEqual([]);
});

test('once the file has the bands nothing is to be written, nor fitted again to takes that are without them', async () => {
  const [one] = atMix;
  if (one === undefined) throw new Error('no fit');
  const bands = one.fit.bands.map((band, i) => ({ ...band, name: `band_${i + 1}` }));
  const value = { kind: 'eq', control: one.control, port: null, set: null, told: '' } as const;
  const settings = [
    { device: 'sub', sampleRate_hz: null, values: [{ ...value, path: one.path, bands }] },
  ];
  const written = { ...setup, room: { ...setup.room, settings } } as Setup;
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(foundOf(atMix, written)));
  const part = host.page.locator('#measurements');
  expect(await part.locator('.eq-fit').textContent()).toContain('These bands are in the file.');
  expect(await part.getByRole('button', { name: /EQ of sub/ }).count()).toBe(0);
});

test('paper shows nothing of it', () => {
  const html = renderSheet(setup, [], { title: 'Heron', generatedFrom: 'heron.room.yaml' });
  expect(html).toContain('sub_producer');
  expect(html).not.toContain('EQ to these takes');
  expect(html).not.toContain('Fit EQ');
});

test.each(['vscode-light', 'vscode-dark', 'vscode-high-contrast'] as const)(
  'accessible in %s, and nothing spills over in a narrow pane',
  async (theme) => {
    for (const width of [900, 360]) {
      const host = await PaneHost.open(browser, bundle, { theme, width });
      await host.say(answer(foundOf(atMix)));
      const { page } = host;
      if (width === 900) expect(await accessibilityFaults(page)).toEqual([]);
      const over_px = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over_px).toBeLessThanOrEqual(0);
      if (process.env.PICTURES) {
        await page.locator('#measurements .eq-fit').scrollIntoViewIfNeeded();
        await page
          .locator('#measurements .eq-fit')
          .screenshot({ path: `${process.env.PICTURES}/eq-${theme}-${width}.png` });
      }
    }
  },
);
