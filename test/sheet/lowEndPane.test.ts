// The low end in the pane: pressure over the plan follows the slider, and curves follow what is dragged, with no word from the host.

import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test, vi } from 'vitest';
import { withMoved } from '../../core/parts/moveThing.ts';
import { createWithField } from '../../core/withField.ts';
import { createFieldDesk } from '../../server/field/fieldJob.ts';
import type { HostToPane } from '../../server/protocol/pane.ts';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { accessibilityFaults, type Bundle, bundlePage, PaneHost } from './paneHost.ts';

let browser: Browser;
let bundle: Bundle;
beforeAll(async () => {
  [browser, bundle] = await Promise.all([startChromium(), bundlePage()]);
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

function told(name: string): Extract<HostToPane, { kind: 'setup' }> {
  const room = demoRooms().find((one) => one.name === name);
  if (room === undefined) throw new RangeError(`no demo room ${name}`);
  const setup = createWithField()(room.setup, { today: null, envelope: false });
  const answer = { uri: `file:///rooms/${name}.room.yaml`, version: 1, setup, problems: [] };
  return { kind: 'setup', label: `rooms/${name}.room.yaml`, answer };
}

/** Its low end is worked out once. */
let ofHeron: ReturnType<typeof told> | null = null;

function heron(): ReturnType<typeof told> {
  ofHeron ??= told('heron');
  return ofHeron;
}

/** Answers the page's questions about the low end as the server's desk does, until it is stopped. */
function answering(host: PaneHost, { answer }: ReturnType<typeof told>): () => Promise<void> {
  const desk = createFieldDesk();
  const { setup, uri } = answer;
  let isOn = true;
  const work = async (): Promise<void> => {
    for (let answered = 0; isOn; ) {
      const question = (await host.said('ask'))[answered];
      if (question === undefined || setup === null) {
        await new Promise((done) => setTimeout(done, 50));
        continue;
      }
      answered += 1;
      const { ask, number } = question;
      const room = ask.kind === 'moved' ? withMoved(setup.room, ask.thing, ask.place) : setup.room;
      const quick = ask.kind === 'moved' ? ({ kind: 'follow' } as const) : ask;
      const reply = desk.work({ uri, of: { ...setup, room }, ask: quick });
      const field = 'part' in reply ? reply.part.field : null;
      const map = 'map' in reply ? reply.map : null;
      await host.say({ kind: 'answered', number, answer: { field, map } });
    }
  };
  const working = work();
  return () => {
    isOn = false;
    return working;
  };
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
  await vi.waitUntil(async () => (await curve()) !== before, { timeout: 240_000, interval: 50 });
  expect(await figure()).not.toBe(figureBefore);
  // Let go: the file's first answer has the moved room with the low end of the version before, which is not drawn.
  await vi.waitUntil(async () => (await host.said('edit')).length === 1, { timeout: 240_000 });
  const left = await curve();
  if (file.kind === 'setup') {
    await host.say({ ...file, answer: { ...file.answer, version: 2, isFieldOlder: true } });
    expect(await curve()).toBe(left);
    await host.say({ ...file, answer: { ...file.answer, version: 2 } });
  }
  expect(await curve()).toBe(before);
  expect(await figure()).toBe(figureBefore);
});

test('the map follows the pointer in a response chart while it is shown, and not before', async () => {
  const host = await PaneHost.open(browser, bundle, { width: 900 });
  await host.say(heron());
  const { page } = host;
  const chart = page.locator('#low-end figure[data-hz] .plot-field').first();
  await chart.scrollIntoViewIfNeeded();
  const box = await chart.boundingBox();
  if (box === null) throw new RangeError('no chart');
  const pointAt = (share: number) =>
    page.mouse.move(box.x + share * box.width, box.y + box.height / 2);
  await pointAt(0.2);
  await page.getByLabel('Pressure over the plan').press('Space');
  const slider = page.getByLabel('Frequency', { exact: true });
  const before = await slider.getAttribute('aria-valuetext');
  await chart.scrollIntoViewIfNeeded();
  const again = await chart.boundingBox();
  if (again === null) throw new RangeError('no chart');
  // From 20 to 200 Hz, evenly in octaves: the middle is √(20 · 200) Hz.
  await page.mouse.move(again.x + again.width / 2, again.y + again.height / 2);
  await vi.waitUntil(async () => (await slider.getAttribute('aria-valuetext')) !== before, {
    timeout: 240_000,
  });
  expect(await slider.getAttribute('aria-valuetext')).toMatch(/^6[2-4](\.\d)? Hz/);
});

test('in a room under a slope the server is asked: the map follows the slider, the curves what is moved', async () => {
  const host = await PaneHost.open(browser, bundle, { width: 900 });
  const file = told('wren');
  await host.say(file);
  const stop = answering(host, file);
  const { page } = host;
  const drawn = (): Promise<number> => page.locator('svg.plan .pressure path').count();
  await page.getByLabel('Pressure over the plan').press('Space');
  await vi.waitUntil(async () => 0 < (await drawn()), { timeout: 240_000, interval: 100 });
  const curve = (): Promise<string | null> =>
    page.locator('#low-end .curve-sum').first().getAttribute('d');
  const before = await curve();
  await page.locator('.thing[data-move="subwoofers.sub"]').focus();
  for (let step = 0; step < 8; step += 1) await page.keyboard.press('ArrowRight');
  await vi.waitUntil(async () => (await curve()) !== before, { timeout: 240_000, interval: 50 });
  await stop();
});
