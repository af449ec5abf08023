// Candidates in the preview's page, in a real browser: searched for, tried on by click and key, put off again, written.

import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { fitRoom } from '../../core/equaliser/roomFit.ts';
import { searchMains } from '../../core/search/mainsAndSeat.ts';
import { placeSubwoofers } from '../../core/search/roomPlacement.ts';
import { allAtOnce } from '../../core/search/transferMap.ts';
import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import type { HostToPane, PaneToHost } from '../../server/protocol/pane.ts';
import type { Found } from '../../server/protocol/search.ts';
import { foundMoves, foundPlaces } from '../../server/search/found.ts';
import { foundFits } from '../../server/search/foundFits.ts';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { accessibilityFaults, type Bundle, bundlePage, PaneHost } from './paneHost.ts';

let browser: Browser;
let bundle: Bundle;
let setup: Setup;
let found: Found;
beforeAll(async () => {
  [browser, bundle] = await Promise.all([startChromium(), bundlePage()]);
  const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
  if (heron === undefined) throw new Error('no heron');
  setup = withField(heron, { today: null, envelope: false });
  const placement = allAtOnce(placeSubwoofers(setup, { subs: ['sub'], step_m: 0.3 }));
  found = {
    places: [foundPlaces(setup, 'sub', placement)],
    fits: foundFits(setup, { fits: fitRoom(setup, { devices: ['sub'] }), from: null }),
  };
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

const URI = 'file:///rooms/heron.room.yaml';

function answer(of: Found | null, version = 1): HostToPane {
  const more = of === null ? {} : { found: of };
  return {
    kind: 'setup',
    label: 'rooms/heron.room.yaml',
    answer: { uri: URI, version, setup, problems: [], ...more },
  };
}

/** The room as it would be: enough that a reader can tell it from the file's. */
function asTried(): Setup {
  const at = found.places[0]?.candidates[1]?.at ?? null;
  const subwoofers = setup.room.subwoofers.map((sub) => ({ ...sub, at }));
  return { ...setup, room: { ...setup.room, name: 'Heron, tried on', subwoofers } };
}

type Try = Extract<PaneToHost, { kind: 'try' }>;

/** Answers the last thing tried on, as the host would. */
async function answerTrial(host: PaneHost): Promise<Try> {
  const asked = (await host.said('try')).at(-1) as Try;
  await host.say({
    kind: 'tried',
    trial: asked.trial,
    answer: { uri: URI, version: 1, setup: asTried(), problems: [] },
  });
  return asked;
}

const title = (page: Page) => page.locator('h1').textContent();

test('a search is begun at the plan; what it finds is marked there and listed', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(null));
  const { page } = host;
  expect(await page.locator('.candidate').count()).toBe(0);
  await page.getByRole('button', { name: 'Find places for sub' }).click();
  expect(await host.said('search')).toEqual([{ kind: 'search', what: 'places', id: 'sub' }]);
  // The same button now stops it; until then nothing else is searched for.
  await page.getByRole('button', { name: /^Searching places for sub … Stop/ }).click();
  expect(await host.said('stop')).toEqual([{ kind: 'stop' }]);
  expect(await page.getByRole('button', { name: 'Fit EQ of sub' }).isDisabled()).toBe(true);
  await host.say(answer(found));
  await host.say({ kind: 'searched', why: null });
  const count = found.places[0]?.candidates.length ?? 0;
  expect(count).toBeGreaterThan(1);
  expect(await page.locator('.candidate').count()).toBe(count);
  const rows = page.locator('[aria-label="Candidates for sub"] tbody tr');
  expect(await rows.count()).toBe(count + 1);
  expect(await rows.nth(1).textContent()).toContain(
    `${found.places[0]?.candidates[0]?.flatness_db.toFixed(1)} dB`,
  );
  // Marks stand where the candidates do: 1 left of 2 on the plan as in the room.
  const [one, two] = await Promise.all(
    ['Candidate 1 ', 'Candidate 2 '].map((name) =>
      page.locator(`.candidate[aria-label^="${name}"]`).boundingBox(),
    ),
  );
  const [a, b] = found.places[0]?.candidates ?? [];
  expect(Math.sign((one?.x ?? 0) - (two?.x ?? 0))).toBe(
    Math.sign((a?.at.x_m ?? 0) - (b?.at.x_m ?? 0)),
  );
  await host.say({ kind: 'searched', why: 'Stopped, or nothing was found.' });
  expect(await page.locator('.remark').textContent()).toContain('Stopped');
  expect(await host.violations()).toEqual([]);
});

test('tried on by click on its mark: the sheet shows it, says so, and goes back by Escape', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(found));
  const { page } = host;
  await page.locator('.candidate[aria-label^="Candidate 2 "]').click();
  expect(await page.locator('.trial-bar').textContent()).toContain('Being worked out');
  expect(await title(page)).toBe('Heron, mix room 2');
  const asked = await answerTrial(host);
  expect(asked.edits).toEqual(found.places[0]?.candidates[1]?.edits);
  expect(await title(page)).toBe('Heron, tried on');
  expect(await page.locator('.trial-bar').textContent()).toContain('sub at candidate 2');
  expect(await page.locator('[role="status"]').textContent()).toContain('sub at candidate 2');
  expect(await page.locator('.candidate[aria-pressed="true"]').count()).toBe(1);
  expect(await page.locator('.candidate-standing').count()).toBe(1);
  expect(await host.said('edit')).toEqual([]);
  await page.keyboard.press('Escape');
  expect(await title(page)).toBe('Heron, mix room 2');
  expect(await page.locator('.trial-bar').count()).toBe(0);
});

test('by keyboard from the list; a late answer to an older trial counts for nothing', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(found));
  const { page } = host;
  const tries = page.getByRole('button', { name: /^Try on: sub at candidate/ });
  await tries.first().focus();
  await page.keyboard.press('Enter');
  await tries.nth(1).focus();
  await page.keyboard.press(' ');
  const [first, second] = (await host.said('try')) as Try[];
  expect([first?.trial, second?.trial]).toEqual([1, 2]);
  await host.say({
    kind: 'tried',
    trial: 1,
    answer: { uri: URI, version: 1, setup: asTried(), problems: [] },
  });
  expect(await title(page)).toBe('Heron, mix room 2');
  await answerTrial(host);
  expect(await title(page)).toBe('Heron, tried on');
  expect(await tries.nth(1).getAttribute('aria-pressed')).toBe('true');
  await page.keyboard.press('Enter');
  expect(await title(page)).toBe('Heron, mix room 2');
});

test('written as one edit; a new version of the file ends the trial', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(found));
  const { page } = host;
  await page.locator('.candidate[aria-label^="Candidate 1 "]').click();
  await answerTrial(host);
  await page.getByRole('button', { name: 'Write it into the file', exact: true }).click();
  expect(await host.said('edit')).toEqual([
    {
      kind: 'edit',
      version: 1,
      title: 'sub at candidate 1',
      edits: found.places[0]?.candidates[0]?.edits,
    },
  ]);
  await host.say(answer(found, 2));
  expect(await page.locator('.trial-bar').count()).toBe(0);
  expect(await title(page)).toBe('Heron, mix room 2');
});

test('dragging something puts off what is tried on', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer(found));
  const { page } = host;
  await page.locator('.candidate[aria-label^="Candidate 1 "]').click();
  await answerTrial(host);
  await page.locator('.plan .thing-seat').first().focus();
  await page.keyboard.press('ArrowDown');
  await expect.poll(() => page.locator('.trial-bar').count()).toBe(0);
});

test('the main pair and the seat: begun at the plan, both of a pair marked', async () => {
  const host = await PaneHost.open(browser, bundle);
  const moved = searchMains(setup);
  if (moved === null) throw new Error('no pair');
  const pair = foundMoves(setup, 'mains', moved);
  await host.say(answer({ places: [pair], fits: [] }));
  const { page } = host;
  await page.getByRole('button', { name: 'Find places for mix' }).click();
  expect(await host.said('search')).toEqual([{ kind: 'search', what: 'seat', id: 'mix' }]);
  expect(await page.locator('.candidate').count()).toBe(2 * pair.candidates.length);
  const marks = page.locator('.candidate[aria-label^="Candidate 1 for main pair"]');
  expect(await marks.count()).toBe(2);
  await marks.first().click();
  expect((await answerTrial(host)).edits).toEqual(pair.candidates[0]?.edits);
  expect(await page.locator('.trial-bar').textContent()).toContain('main pair at candidate 1');
});

test('EQ: begun in the low end, before and after as curves and figures, tried on', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(answer({ places: [], fits: [] }));
  const { page } = host;
  await page.getByRole('button', { name: 'Fit EQ of sub' }).click();
  expect(await host.said('search')).toEqual([{ kind: 'search', what: 'eq', id: 'sub' }]);
  await host.say(answer(found));
  await host.say({ kind: 'searched', why: null });
  const fit = page.locator('.eq-fit');
  expect(await fit.locator('.legend').first().textContent()).toMatch(
    /^targetbeforeafter, computed/,
  );
  const seats = found.fits[0]?.seats ?? [];
  expect(await fit.locator('figure').count()).toBe(seats.length);
  const cells = await fit.locator('tbody tr').first().locator('td').allTextContents();
  expect(cells.slice(0, 3)).toEqual([
    'predicted',
    `${seats[0]?.before_db.toFixed(1)} dB RMS`,
    `${seats[0]?.after_db.toFixed(1)} dB RMS`,
  ]);
  await fit.getByRole('button', { name: /^Try on/ }).click();
  const asked = await answerTrial(host);
  expect(asked.edits).toEqual(found.fits[0]?.edits);
  expect(await page.locator('.trial-bar').textContent()).toContain('EQ of sub');
});

test.each(['vscode-light', 'vscode-dark', 'vscode-high-contrast'] as const)(
  'accessible in %s, tried on and not',
  async (theme) => {
    const host = await PaneHost.open(browser, bundle, { theme });
    await host.say(answer(found));
    expect(await accessibilityFaults(host.page)).toEqual([]);
    await host.page.locator('.candidate[aria-label^="Candidate 1 "]').click();
    await answerTrial(host);
    expect(await accessibilityFaults(host.page)).toEqual([]);
    if (process.env.PICTURES) {
      await host.page.screenshot({ path: `${process.env.PICTURES}/${theme}.png`, fullPage: false });
      await host.page.locator('.candidates-part').scrollIntoViewIfNeeded();
      await host.page.screenshot({ path: `${process.env.PICTURES}/${theme}-list.png` });
      await host.page.locator('.eq-fit').scrollIntoViewIfNeeded();
      await host.page.screenshot({ path: `${process.env.PICTURES}/${theme}-eq.png` });
    }
  },
);

test('nothing spills over in a narrow pane', async () => {
  const host = await PaneHost.open(browser, bundle, { width: 360 });
  await host.say(answer(found));
  await host.page.locator('.candidate[aria-label^="Candidate 1 "]').click();
  await answerTrial(host);
  const spilt = await host.page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(spilt).toBeLessThanOrEqual(0);
  if (process.env.PICTURES)
    await host.page.screenshot({ path: `${process.env.PICTURES}/narrow.png`, fullPage: false });
});
