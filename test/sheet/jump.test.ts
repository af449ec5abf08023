// The jump from a take in the text to its curve in the preview's page: as soon as it is drawn, out of a fold, and not against the reader.

import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import type { MeasuredTake } from '../../core/measured/measuredFigures.ts';
import type { Setup } from '../../core/setup.ts';
import type { HostToPane } from '../../server/protocol/pane.ts';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { EMPTY_TAKE } from '../support/emptyTake.ts';
import { type Bundle, bundlePage, PaneHost } from './paneHost.ts';

let browser: Browser;
let bundle: Bundle;
beforeAll(async () => {
  [browser, bundle] = await Promise.all([startChromium(), bundlePage()]);
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

const heron = demoRooms().find(({ name }) => name === 'heron')?.setup;
const pathOf = (take: string) => ['sessions', 'autumn_2026', 'takes', take];

/** Every take of the session with the same made-up curve; the last could not be read. */
function told(isRead: boolean): HostToPane {
  if (heron === undefined) throw new Error('no heron');
  const [session] = heron.room.sessions ?? [];
  if (session === undefined) throw new Error('no session');
  const takes = session.takes.map((take, index): MeasuredTake => {
    const isBroken = index === session.takes.length - 1;
    return {
      take: take.id,
      path: take.path,
      drive: take.drive,
      sounding: take.sounding,
      seat: take.seat,
      at: take.at,
      ...EMPTY_TAKE,
      kind: isBroken ? null : 'impulse',
      response: isBroken
        ? null
        : {
            frequency_hz: [20, 200, 2000],
            level_db: [60, 70, 65],
            phase_rad: null,
            phaseFrom: null,
            smoothing: 6,
          },
    };
  });
  const { id, path, date } = session;
  const measured = { sessions: [{ session: id, path, date, takes, averages: [] }], notes: [] };
  const setup: Setup = isRead ? { ...heron, measured } : heron;
  const answer = { uri: 'file:///heron.room.yaml', version: 1, setup, problems: [] };
  return { kind: 'setup', label: 'heron.room.yaml', answer };
}

const headingOf = (page: Page, take: string) =>
  page.locator(`#measurements [data-drawing='${JSON.stringify(pathOf(take))}']`);
const isInView = (page: Page, take: string) =>
  headingOf(page, take).evaluate((element) => {
    const { top, bottom } = element.getBoundingClientRect();
    return element.checkVisibility() && 0 <= bottom && top <= window.innerHeight;
  });

test('at once where it is drawn, out of its fold too', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(told(true));
  expect(await isInView(host.page, 'left_mix')).toBe(false);
  await host.say({ kind: 'jump', path: pathOf('left_mix') });
  expect(await isInView(host.page, 'left_mix')).toBe(true);
  expect(await isInView(host.page, 'both_producer')).toBe(false);
  await host.say({ kind: 'jump', path: pathOf('both_producer') });
  expect(await isInView(host.page, 'both_producer')).toBe(true);
});

test('later, once the takes are read; where one cannot be read, to its row', async () => {
  for (const take of ['right_mix', 'sub_producer']) {
    const host = await PaneHost.open(browser, bundle);
    await host.say(told(false));
    await host.say({ kind: 'jump', path: pathOf(take) });
    await host.say(told(true));
    expect(await isInView(host.page, take)).toBe(true);
  }
});

test('not any more for who has begun to look around', async () => {
  const host = await PaneHost.open(browser, bundle);
  await host.say(told(false));
  await host.say({ kind: 'jump', path: pathOf('left_mix') });
  await host.page.keyboard.press('ArrowDown');
  await host.say(told(true));
  expect(await isInView(host.page, 'left_mix')).toBe(false);
});
