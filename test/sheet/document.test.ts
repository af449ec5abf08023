// The exported sheet in a real browser: nothing runs over, no words on one another, accessible in light and dark.

import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, expect, test } from 'vitest';
import { renderSheet } from '../../server/sheet/renderSheet.tsx';
import { startChromium } from '../support/chromium.ts';
import { demoRooms } from '../support/demoRooms.ts';
import { accessibilityFaults } from './paneHost.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await startChromium();
});
afterEach(async () => {
  for (const context of browser.contexts()) await context.close();
});
afterAll(async () => await browser.close());

const WIDTHS = [320, 380, 800, 1280];

async function open(html: string, colorScheme: 'light' | 'dark'): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 800, height: 900 }, colorScheme });
  await page.setContent(html);
  return page;
}

const DEMO = demoRooms();

test.each(DEMO)(
  '$name never scrolls sideways; no word of a drawing lies on another or is cut off',
  async ({ setup, problems }) => {
    const page = await open(renderSheet(setup, problems), 'light');
    for (const width of WIDTHS) {
      await page.setViewportSize({ width, height: 900 });
      const over_px = await page.evaluate(
        () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
      );
      expect(over_px, `${width} px`).toBe(0);
      const faults = await page.evaluate(wordFaults);
      expect(faults.compared).toBeGreaterThan(10);
      expect(faults.overlapping, `${width} px`).toEqual([]);
      expect(faults.cut, `${width} px`).toEqual([]);
    }
  },
);

test.each([
  ['heron', 'light'],
  ['cuckoo', 'dark'],
] as const)('axe-core finds nothing wrong with %s, %s', async (name, scheme) => {
  const { setup, problems } = DEMO.find((room) => room.name === name) ?? {};
  if (setup === undefined || problems === undefined) throw new Error(`no demo room ${name}`);
  const page = await open(renderSheet(setup, problems), scheme);
  const faults = await accessibilityFaults(page);
  expect(faults).toEqual([]);
});

/** Runs in the page: measures every word of every drawing and chart as the browser has set it. */
function wordFaults(): {
  readonly compared: number;
  readonly overlapping: readonly string[];
  readonly cut: readonly string[];
} {
  const overlapping: string[] = [];
  const cut: string[] = [];
  let compared = 0;
  for (const drawing of document.querySelectorAll('.drawing, .plot-field, .plot-up')) {
    if (!drawing.checkVisibility()) continue;
    const words = [...drawing.querySelectorAll('text')].filter(({ textContent }) =>
      textContent?.trim(),
    );
    const boxes = words.map((word) => ({ word, box: word.getBoundingClientRect() }));
    // A chart's words may stand anywhere in its own figure.
    const frame = (drawing.closest('.plot') ?? drawing).getBoundingClientRect();
    for (const [index, { word, box }] of boxes.entries()) {
      if (box.left < frame.left - 1 || frame.right + 1 < box.right)
        cut.push(word.textContent ?? '');
      for (const other of boxes.slice(index + 1)) {
        compared += 1;
        const across = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
        const down = Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top);
        // Boxes hold the line's whole height; letters fill about two thirds of it.
        if (1 < across && 4 < down)
          overlapping.push(`${word.textContent} / ${other.word.textContent}`);
      }
    }
  }
  return { compared, overlapping, cut };
}
