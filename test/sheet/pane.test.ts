// The preview's page in a real browser under the pane's own policy: drawing, following, revealing, moving.

import type { Browser } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import type { HostToPane } from '../../server/protocol/pane.ts';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { stereoSetup } from '../support/setups.ts';
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

const URI = 'file:///rooms/plover.room.yaml';

function answer(setup: Setup | null, version = 1): HostToPane {
  return {
    kind: 'setup',
    label: 'rooms/plover.room.yaml',
    answer: { uri: URI, version, setup, problems: [] },
  };
}

/** The same room with another reference level: nothing but one figure changes. */
function louder(): Setup {
  const setup = stereoSetup();
  const reference = { ...setup.levels.reference, stated_db: 82 };
  return { ...setup, levels: { ...setup.levels, reference } };
}

test('asks when it is ready, draws what it is sent, breaks no rule of its policy', async () => {
  const host = await PaneHost.open(browser, bundle);
  expect(await host.said()).toEqual([{ kind: 'ready' }]);
  await host.say(answer(stereoSetup()));
  expect(await host.page.locator('h1').textContent()).toBe('Plover, mix room');
  expect(await host.page.locator('[role="status"]').textContent()).toBe('1 error, 1 warning');
  expect(await host.violations()).toEqual([]);
});

test('keeps every element, the scroll and open details when a figure changes', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(stereoSetup()));
  await host.page.locator('#room-positions summary').click();
  await host.page.evaluate(() => {
    window.scrollTo(0, 1200);
    for (const element of document.querySelectorAll('#root *'))
      element.setAttribute('data-kept', '');
  });
  await host.say(answer(louder(), 2));
  expect(await host.page.locator('.glance').textContent()).toContain('82 dBC');
  const after = await host.page.evaluate(() => ({
    fresh: document.querySelectorAll('#root *:not([data-kept])').length,
    scroll: window.scrollY,
    open: document.querySelector('#room-positions')?.hasAttribute('open'),
  }));
  expect(after).toEqual({ fresh: 0, scroll: 1200, open: true });
});

test('stays with the last good setup while the text cannot be read', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(stereoSetup()));
  await host.say(answer(null, 2));
  expect(await host.page.locator('h1').textContent()).toBe('Plover, mix room');
  expect(await host.page.locator('.remark').count()).toBe(1);
  await host.say({ kind: 'none', why: 'No room file is open.' });
  expect(await host.page.locator('h1').count()).toBe(0);
  expect(await host.page.locator('.remark').textContent()).toBe('No room file is open.');
});

describe('to the source', () => {
  test('by click on a row, a drawing, a wire and a finding', async () => {
    const host = await PaneHost.open(browser, bundle);
    await host.say(answer(stereoSetup()));
    const { page } = host;
    await page
      .locator('[aria-label="Arrivals at mix"] tbody tr')
      .nth(1)
      .locator('td')
      .first()
      .click();
    await page.locator('.plan .thing-subwoofer').click();
    await page.locator('.node-speaker').first().click();
    await page.locator('.finding button').nth(1).click();
    expect((await host.said('reveal')).map((message) => 'path' in message && message.path)).toEqual(
      [
        ['speakers', 'right'],
        ['subwoofers', 'sub', 'at'],
        ['speakers', 'left'],
        ['wiring', '2'],
      ],
    );
  });

  test('by keyboard', async () => {
    const host = await PaneHost.open(browser, bundle);
    await host.say(answer(stereoSetup()));
    await host.page.locator('.plan .thing-seat').first().focus();
    await host.page.keyboard.press('Enter');
    await host.page.locator('[aria-label="Arrivals at mix"] th button').first().focus();
    await host.page.keyboard.press('Enter');
    expect((await host.said('reveal')).map((message) => 'path' in message && message.path)).toEqual(
      [
        ['seats', 'mix', 'at'],
        ['speakers', 'left'],
      ],
    );
  });
});

describe('the cursor of the editor', () => {
  test('is pointed out and brought into view once', async () => {
    const host = await PaneHost.open(browser, bundle, { height: 500 });
    await host.say(answer(stereoSetup()));
    await host.say({ kind: 'highlight', path: ['circuits', 'tech', 'rating'] });
    const marked = host.page.locator('[data-here]');
    expect(
      await marked.evaluateAll((all) => all.map((one) => one.getAttribute('data-path'))),
    ).toEqual(expect.arrayContaining(['["circuits","tech"]']));
    expect(await host.page.evaluate(() => window.scrollY)).toBeGreaterThan(1000);
    // Someone types there: the same place again moves nothing.
    await host.page.evaluate(() => window.scrollTo(0, 0));
    await host.say({ kind: 'highlight', path: ['circuits', 'tech', 'rating'] });
    expect(await host.page.evaluate(() => window.scrollY)).toBe(0);
    await host.say(answer(louder(), 2));
    expect(await marked.count()).toBeGreaterThan(0);
    await host.say({ kind: 'highlight', path: null });
    expect(await marked.count()).toBe(0);
  });

  test('on a parent marks what lies below it', async () => {
    const host = await PaneHost.open(browser, bundle);
    await host.say(answer(stereoSetup()));
    await host.say({ kind: 'highlight', path: ['seats'] });
    expect(await host.page.locator('.plan .thing-seat[data-here]').count()).toBe(2);
    expect(await host.page.locator('.plan .thing-speaker[data-here]').count()).toBe(0);
  });
});

test('after a reload it is where it was', async () => {
  const first = await PaneHost.open(browser, bundle);
  await first.say(answer(stereoSetup()));
  await first.page.locator('#modes-table summary').click();
  await first.page.evaluate(() => window.scrollTo(0, 1500));
  await first.page.waitForTimeout(300);
  const state = await first.state();
  expect(state).toEqual({ uri: URI, scroll_px: 1500, open: ['modes-table'] });
  if (state === undefined) return;
  const second = await PaneHost.open(browser, bundle, { state });
  await second.say(answer(stereoSetup()));
  expect(await second.page.evaluate(() => window.scrollY)).toBe(1500);
  expect(await second.page.locator('#modes-table').getAttribute('open')).not.toBeNull();
});

test('a setting that differs can be written to the file', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(stereoSetup(), 7));
  await host.page.locator('.apply').click();
  expect(await host.said('edit')).toEqual([
    {
      kind: 'edit',
      version: 7,
      title: 'Dial in 0 ms at out_right of sub',
      edits: [
        { do: 'set', path: ['settings', 'sub', 'ports', 'out_right', 'delay'], value: '0 ms' },
      ],
    },
  ]);
  expect(await host.said('reveal')).toEqual([]);
});

describe('moving in the plan', () => {
  const heron = demoRooms().find(({ name }) => name === 'heron');
  if (heron === undefined) throw new Error('the demo room heron is gone');
  const was = heron.setup.room.subwoofers[0]?.at;
  if (was === null || was === undefined) throw new Error('its subwoofer stands nowhere');

  async function opened(): Promise<PaneHost> {
    const host = await PaneHost.open(browser, bundle, { width: 1000 });
    await host.say(answer(heron?.setup ?? null, 3));
    return host;
  }
  const distance = (host: PaneHost): Promise<string | null> =>
    host.page
      .locator('[aria-label="Arrivals at mix"] tbody tr', { hasText: 'sub' })
      .locator('td')
      .first()
      .textContent();

  test('a drag shows its figures at once and ends in one edit', async () => {
    const host = await opened();
    const sub = host.page.locator('.plan .thing-subwoofer');
    const scale_px_m = Number(await host.page.locator('.plan').getAttribute('data-scale'));
    const before = await distance(host);
    const box = await sub.boundingBox();
    if (box === null) throw new Error('no subwoofer is drawn');
    await host.page.mouse.move(box.x + box.width / 2, box.y + box.height / 2);
    await host.page.mouse.down();
    // Half a metre to the left.
    await host.page.mouse.move(box.x + box.width / 2 - scale_px_m / 2, box.y + box.height / 2, {
      steps: 5,
    });
    await host.page.waitForTimeout(120);
    const during = await distance(host);
    expect(during).not.toBe(before);
    expect(await host.said('edit')).toEqual([]);
    await host.page.mouse.up();
    const edits = await host.said('edit');
    expect(edits).toEqual([
      {
        kind: 'edit',
        version: 3,
        title: 'Move sub',
        edits: [
          {
            do: 'set',
            path: ['subwoofers', 'sub', 'at', 'x'],
            value: `${(was.x_m - 0.5).toFixed(2)} m`,
          },
        ],
      },
    ]);
    // Pythagoras to the seat, by hand.
    const seat = heron?.setup.room.seats.find(({ isReference }) => isReference)?.at;
    if (seat === null || seat === undefined) throw new Error('no reference seat');
    const want_m = Math.hypot(seat.x_m - was.x_m + 0.5, seat.y_m - was.y_m, seat.z_m - was.z_m);
    expect(during).toBe(`${want_m.toFixed(2)} m`);
    expect(await distance(host)).toBe(during);
    // A drag is no click, and what the host refuses goes back.
    expect(await host.said('reveal')).toEqual([]);
    await host.say({ kind: 'refused', why: 'the text has changed' });
    expect(await distance(host)).toBe(before);
  });

  test('Escape cancels', async () => {
    const host = await opened();
    const before = await distance(host);
    const box = await host.page.locator('.plan .thing-subwoofer').boundingBox();
    if (box === null) throw new Error('no subwoofer is drawn');
    await host.page.mouse.move(box.x + 8, box.y + 8);
    await host.page.mouse.down();
    await host.page.mouse.move(box.x + 60, box.y + 60, { steps: 4 });
    await host.page.waitForTimeout(120);
    expect(await distance(host)).not.toBe(before);
    await host.page.keyboard.press('Escape');
    await host.page.waitForTimeout(60);
    expect(await distance(host)).toBe(before);
    await host.page.mouse.up();
    expect(await host.said('edit')).toEqual([]);
  });

  test('arrow keys move by 5 cm, with Shift by 1 cm, as one edit', async () => {
    const host = await opened();
    await host.page.locator('.plan .thing-subwoofer').focus();
    await host.page.keyboard.press('ArrowRight');
    await host.page.keyboard.press('ArrowRight');
    await host.page.keyboard.press('Shift+ArrowDown');
    expect(await host.page.locator('[role="status"]').textContent()).toMatch(/^sub: /);
    await host.page.waitForTimeout(900);
    const edits = await host.said('edit');
    expect(edits).toHaveLength(1);
    expect(edits[0]).toMatchObject({
      edits: [
        { path: ['subwoofers', 'sub', 'at', 'x'], value: `${(was.x_m + 0.1).toFixed(2)} m` },
        { path: ['subwoofers', 'sub', 'at', 'y'], value: `${(was.y_m + 0.01).toFixed(2)} m` },
      ],
    });
  });
});

describe.each(['vscode-light', 'vscode-high-contrast'] as const)('%s', (theme) => {
  test('axe-core finds nothing wrong', async () => {
    const host = await PaneHost.open(browser, bundle, { theme });
    const { setup } = demoRooms().find(({ name }) => name === 'heron') ?? {};
    await host.say(answer(setup ?? null));
    await host.page.evaluate(() => {
      for (const details of document.querySelectorAll('details')) details.setAttribute('open', '');
    });
    expect(await accessibilityFaults(host.page)).toEqual([]);
  });
});
