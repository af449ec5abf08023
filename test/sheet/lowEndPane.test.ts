// The low end in the pane: pressure over the plan follows the slider, and curves follow what is dragged, with no word from the host.

import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { createWithField } from '../../core/withField.ts';
import type { HostToPane } from '../../server/protocol/pane.ts';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { accessibilityFaults, type Bundle, bundlePage, PaneHost } from './paneHost.ts';

// A browser on a busy machine.
vi.setConfig({ testTimeout: 90_000, hookTimeout: 90_000 });

let browser: Browser;
let bundle: Bundle;
beforeAll(async () => {
  [browser, bundle] = await Promise.all([startChromium(), bundlePage()]);
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

function heron(): HostToPane {
  const room = demoRooms().find(({ name }) => name === 'heron');
  if (room === undefined) throw new RangeError('no demo room heron');
  const setup = createWithField()(room.setup, { today: null });
  const answer = { uri: 'file:///rooms/heron.room.yaml', version: 1, setup, problems: [] };
  return { kind: 'setup', label: 'rooms/heron.room.yaml', answer };
}

test('the map is off at first, then follows slider and choice, keyboard alone, and says what it shows', async () => {
  const host = await PaneHost.open(browser, bundle, { width: 900 });
  await host.say(heron());
  const { page } = host;
  const drawn = (): Promise<string> =>
    page.evaluate(() =>
      [...document.querySelectorAll('svg.plan .pressure path')]
        .map((path) => path.getAttribute('d'))
        .join(),
    );
  expect(await drawn()).toBe('');
  await page.getByLabel('Pressure over the plan').press('Space');
  const first = await drawn();
  expect(first.length).toBeGreaterThan(1000);
  const slider = page.getByLabel('Frequency', { exact: true });
  const before = await slider.getAttribute('aria-valuetext');
  expect(before).toMatch(/^\d+(\.\d)? Hz, \d+ dB SPL at mix$/);
  for (let step = 0; step < 12; step += 1) await slider.press('ArrowRight');
  expect(await slider.getAttribute('aria-valuetext')).not.toBe(before);
  const second = await drawn();
  expect(second).not.toBe(first);
  await page.getByLabel('What sounds').selectOption({ label: 'sub alone' });
  expect(await drawn()).not.toBe(second);
  // Things stand on the map, not under it.
  const isOver = await page.evaluate(() => {
    const map = document.querySelector('svg.plan .pressure');
    const thing = document.querySelector('svg.plan .thing');
    return map !== null && thing !== null
      ? (map.compareDocumentPosition(thing) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0
      : null;
  });
  expect(isOver).toBe(true);
  expect(await accessibilityFaults(page)).toEqual([]);
  expect(await host.violations()).toEqual([]);
});

test('while a subwoofer is moved, the response at the reference seat follows; back with the file’s own figures', async () => {
  const host = await PaneHost.open(browser, bundle, { width: 900 });
  const file = heron();
  await host.say(file);
  const { page } = host;
  const curve = (): Promise<string | null> =>
    page.locator('#low-end .curve-sum').first().getAttribute('d');
  const figure = (): Promise<string | null> =>
    page.locator('.glance .fact', { hasText: 'Low end' }).textContent();
  const [before, figureBefore] = [await curve(), await figure()];
  await page.locator('.thing[data-move="subwoofers.sub"]').focus();
  for (let step = 0; step < 8; step += 1) await page.keyboard.press('ArrowRight');
  await vi.waitUntil(async () => (await curve()) !== before, { timeout: 90_000, interval: 50 });
  expect(await figure()).not.toBe(figureBefore);
  // Let go: the file's first answer has the moved room with the low end of the version before, which is not drawn.
  await vi.waitUntil(async () => (await host.said('edit')).length === 1, { timeout: 90_000 });
  const left = await curve();
  if (file.kind === 'setup') {
    await host.say({ ...file, answer: { ...file.answer, version: 2, isFieldOlder: true } });
    expect(await curve()).toBe(left);
    await host.say({ ...file, answer: { ...file.answer, version: 2 } });
  }
  expect(await curve()).toBe(before);
  expect(await figure()).toBe(figureBefore);
});
