// Real editor: the sheet in light, dark and high contrast, wide and narrow: it follows the theme, and everyone can use it (axe).

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { AxeResults } from 'axe-core';
import type { Session } from './support/session.ts';
import { SheetFrame } from './support/sheetFrame.ts';
import type { Steps } from './support/steps.ts';

/** Names of the workbench's own themes, and the class that a webview's body then has. */
const THEMES = [
  { name: 'light', theme: 'Light Modern', bodyClass: 'vscode-light' },
  { name: 'dark', theme: 'Dark Modern', bodyClass: 'vscode-dark' },
  { name: 'high-contrast', theme: 'Default High Contrast', bodyClass: 'vscode-high-contrast' },
] as const;

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
/** The workbench writes down now and then which editors are open. */
const STORED_MS = 6_000;
const NARROW = { width: 820, height: 950 };

export async function checkLooks(session: Session, steps: Steps): Promise<void> {
  const { page, editor } = session;
  const sheet = new SheetFrame(page);
  await session.openRoom('heron');
  await editor.runCommand('Groundbass: Open the Setup Sheet Beside');
  await sheet.title.waitFor();
  await page.waitForTimeout(STORED_MS);
  for (const { name, theme, bodyClass } of THEMES) {
    await steps.step(`the sheet in ${name}`, async () => {
      session.changeSettings({ 'workbench.colorTheme': theme });
      await session.reopen(); // The sheet has to come back by itself.
      await sheet.frame.locator(`body.${bodyClass}`).waitFor();
      await sheet.title.waitFor();
      await page.waitForTimeout(300); // The workbench fades its colours.
      await session.shot(`sheet-${name}`);
      await shootWhole(session, sheet, name);
      return violations(sheet);
    });
  }
  await steps.step('the sheet in a narrow pane needs no sideways scrolling', async () => {
    const wide = page.viewportSize();
    await page.setViewportSize(NARROW);
    await page.waitForTimeout(500);
    await session.shot('sheet-narrow');
    const over_px = await sheet.frame
      .locator('html')
      .evaluate((html) => html.scrollWidth - html.clientWidth);
    if (wide) await page.setViewportSize(wide);
    assert.ok(over_px <= 0, `${over_px} px too wide`);
  });
}

/** Every screenful of the sheet, for people to look at. */
async function shootWhole(session: Session, sheet: SheetFrame, name: string): Promise<void> {
  const root = sheet.frame.locator('html');
  const { height, screen } = await root.evaluate((html) => ({
    height: html.scrollHeight,
    screen: html.clientHeight,
  }));
  for (let index = 1; index * screen < height && index < 20; index++) {
    await root.evaluate((html, top) => html.scrollTo({ top }), index * screen);
    await session.shot(`sheet-${name}-${index}`);
  }
  await root.evaluate((html) => html.scrollTo({ top: 0 }));
}

/** The rules of WCAG 2.2 A and AA, as axe-core tests them. */
async function violations(sheet: SheetFrame): Promise<string> {
  const body = sheet.frame.locator('body');
  await body.evaluate(AXE); // Through the debugger, to which the page's policy does not apply.
  const results = await body.evaluate(async () => {
    const { axe } = window as unknown as { axe: { run(options: object): Promise<AxeResults> } };
    return axe.run({ runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'] });
  });
  const told = results.violations.map(
    ({ id, nodes }) =>
      `${id}: ${nodes
        .slice(0, 3)
        .map(({ html }) => html.slice(0, 120))
        .join(' | ')}`,
  );
  assert.deepEqual(told, []);
  return `${results.passes.length} rules of accessibility kept`;
}
