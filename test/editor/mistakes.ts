// Real editor: the room of mistakes shows each fault at its place, explains it on hover, and cures it from the light bulb.

import assert from 'node:assert/strict';
import type { Session } from './support/session.ts';
import type { Steps } from './support/steps.ts';

/** Faults that the file's own comments name: the text they stand on, and a word that must be in what is said. */
const FAULTS = [
  { line: 'temperature: 21', token: '21', says: /°C/ },
  { line: 'frnt:', token: 'frnt', says: /front/ },
  { line: 'heath_66', token: 'heath_66', says: /heath_6\b/ },
  { line: 'x: 5.54 m', token: '5.54', says: /outside/ },
  { line: 'sub_2.in_lef', token: 'in_lef', says: /in_lfe/ },
] as const;

export async function checkMistakes(session: Session, steps: Steps): Promise<void> {
  const { editor, page } = session;
  const lines = session.textOf('cuckoo').split('\n');
  await steps.step('cuckoo: opens', () => session.openRoom('cuckoo'));
  await steps.step('cuckoo: its errors are counted', async () => {
    await page.locator('#status\\.problems a[aria-label*="Errors: "]').waitFor();
    const errors = Number(/Errors: (\d+)/.exec(await editor.problemCounts())?.[1]);
    assert.ok(errors >= FAULTS.length, `${errors} errors, at least ${FAULTS.length} wanted`);
    return editor.problemCounts();
  });
  for (const { line, token, says } of FAULTS) {
    await steps.step(`cuckoo: hover over ${token} says what is wrong`, async () => {
      await editor.goTo(lines.findIndex((text) => text.includes(line)) + 1);
      const told = await editor.hoverOver(editor.line(line), token, says);
      await page.keyboard.press('Escape');
      return told.slice(0, 100);
    });
  }
  await steps.step('cuckoo: a quick fix mends `frnt`, and one undo takes it back', async () => {
    const index = lines.findIndex((text) => text.includes('frnt:'));
    await editor.goTo(index + 1, (lines[index] ?? '').indexOf('frnt') + 2);
    const before = await editor.problemCounts();
    const title = await editor.applyFix(/front/);
    await editor.line(/front:.*concrete/).waitFor();
    await page.waitForFunction(
      (old) => document.querySelector('#status\\.problems a')?.getAttribute('aria-label') !== old,
      before,
    );
    const after = await editor.problemCounts();
    await page.keyboard.press('Control+z');
    await editor.line('frnt:').waitFor();
    return `${title}: ${before} → ${after}`;
  });
}
