// Real editor: the plan as a tool. A subwoofer is dragged; places are searched, tried on, put off again, and written into the file.

import assert from 'node:assert/strict';
import type { Locator } from 'playwright-core';
import type { Session } from './support/session.ts';
import { SheetFrame } from './support/sheetFrame.ts';
import type { Steps } from './support/steps.ts';
import { metres, truthOf } from './support/truth.ts';

const OWN = '  sub: { item';
const LENGTH_TOLERANCE_M = 0.01;
/** Of a machine on which other suites run beside this one. */
const PATIENCE_MS = 60_000;

/** Heron with its sheet beside it. */
export async function checkTrials(session: Session, steps: Steps): Promise<void> {
  await checkDrag(session, steps);
  await checkCandidates(session, steps);
}

async function checkDrag({ editor, page, textOf }: Session, steps: Steps): Promise<void> {
  const sheet = new SheetFrame(page);
  const line = truthOf(textOf('heron')).places.find(({ id }) => id === 'sub')?.line ?? 1;
  await steps.step('a subwoofer dragged in the plan moves in the file, in one step', async () => {
    await editor.goTo(line);
    const before = (await editor.read(OWN)).text;
    const mark = sheet.frame.locator('.plan .thing-subwoofer');
    const [x, y] = await restingMiddle(mark);
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + 20, y, { steps: 5 });
    await page.mouse.move(x + 40, y, { steps: 5 });
    await page.mouse.up();
    const after = await editor.waitForText(OWN, new RegExp(`^(?!${escaped(before)}).`));
    await intoText(editor);
    await page.keyboard.press('Control+z');
    await editor.waitForText(OWN, new RegExp(`^${escaped(before)}`));
    return after.trim();
  });
}

/** Where its middle is once it has stopped moving: the pane follows the cursor, and later figures push the plan down. */
async function restingMiddle(mark: Locator): Promise<readonly [number, number]> {
  let last = '';
  let rests = 0;
  for (let looks = 0; looks < MOST_LOOKS; looks++) {
    // A server that was just started again draws the sheet anew: then the mark is another one.
    await mark.scrollIntoViewIfNeeded().catch(() => undefined);
    const box = await mark.boundingBox().catch(() => null);
    const here = JSON.stringify(box);
    rests = here === last ? rests + 1 : 0;
    if (rests === RESTS && box !== null) return [box.x + box.width / 2, box.y + box.height / 2];
    last = here;
    await mark.page().waitForTimeout(200);
  }
  throw new Error('the mark never came to rest');
}

/** Looks, 200 ms apart, between which nothing has moved; and how many there are in all. */
const RESTS = 5;
const MOST_LOOKS = 100;

async function checkCandidates({ editor, page, textOf }: Session, steps: Steps): Promise<void> {
  const sheet = new SheetFrame(page);
  const text = textOf('heron');
  const { places } = truthOf(text);
  const sub = places.find(({ id }) => id === 'sub');
  const mark = sheet.frame.locator('.candidate[aria-label^="Candidate 1 for sub"]');
  const bar = sheet.frame.locator('.trial-bar');
  let away_m = Number.NaN;
  await steps.step('places are searched from the plan and marked on it', async () => {
    await sheet.frame.getByRole('button', { name: 'Find places for sub' }).click();
    await mark.waitFor();
    return (await mark.getAttribute('aria-label')) ?? '';
  });
  await steps.step('one is tried on: its distance by Pythagoras, the file as it was', async () => {
    const label = (await mark.getAttribute('aria-label')) ?? '';
    const [, x = '', y = ''] =
      /: ([\d.]+) m from the left, ([\d.]+) m from the front/.exec(label) ?? [];
    away_m = truthOf(movedTo(text, x, y)).places.find(({ id }) => id === 'sub')?.distance_m ?? 0;
    await mark.click();
    await bar.filter({ hasText: 'The file is as it was' }).waitFor();
    await expectAway(sheet, away_m);
    assert.equal(textOf('heron'), text);
    return `${away_m.toFixed(2)} m`;
  });
  await steps.step('Escape puts it off', async () => {
    await mark.focus();
    await page.keyboard.press('Escape');
    await bar.waitFor({ state: 'detached' });
    await expectAway(sheet, sub?.distance_m ?? 0);
  });
  await steps.step('written, it is one step to undo', async () => {
    await mark.click();
    await bar.getByRole('button', { name: 'Write it into the file' }).click();
    await expectAway(sheet, away_m);
    await bar.waitFor({ state: 'detached' });
    await intoText(editor);
    await page.keyboard.press('Control+z');
    await expectAway(sheet, sub?.distance_m ?? 0);
  });
}

/** After something was clicked in the sheet, keys go there: a click into the text brings them back. */
async function intoText(editor: Session['editor']): Promise<void> {
  await editor.line(/sub:.\{.item/).click({ position: { x: 30, y: 8 } });
}

/** Waits until the table of arrivals has this distance of the subwoofer. */
async function expectAway(sheet: SheetFrame, want_m: number): Promise<void> {
  let shown = '';
  for (const end = Date.now() + PATIENCE_MS; Date.now() < end; ) {
    shown = await sheet.distance('mix', 'sub');
    if (Math.abs(metres(shown) - want_m) <= LENGTH_TOLERANCE_M) return;
    await new Promise((done) => setTimeout(done, 100));
  }
  throw new Error(`the sheet has ${shown}, but ${want_m.toFixed(3)} m by hand`);
}

function movedTo(text: string, x: string, y: string): string {
  return text.replace(
    /(\n {2}sub: \{ item: \w+, at: \{ )x: [\d.]+ m, y: [\d.]+ m/,
    `$1x: ${x} m, y: ${y} m`,
  );
}

function escaped(text: string): string {
  return text.replaceAll(/[.*+?^${}()|[\]\\]/g, '\\$&');
}
