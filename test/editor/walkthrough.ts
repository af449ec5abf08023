// Real editor: the walkthrough. Its steps are there, and its buttons do what they say: copy the sample, open the sheet, dial in.

import assert from 'node:assert/strict';
import type { Session } from './support/session.ts';
import type { Steps } from './support/steps.ts';

const TITLE = 'Your first room in Groundbass';
const STEPS = [
  'Copy the sample facility',
  'Read the figures beside the lines',
  'Open the setup sheet',
  'Dial in what is computed',
] as const;

export async function checkWalkthrough(
  { editor, page, textOf }: Session,
  steps: Steps,
): Promise<void> {
  const lineOf = (start: string) =>
    textOf('heron')
      .split('\n')
      .findIndex((line) => line.startsWith(start)) + 1;
  const list = page.locator('.getting-started-step');
  const button = (name: string) => page.getByRole('button', { name, exact: true });
  const open = async () => {
    await editor.runCommand('Welcome: Open Walkthrough...');
    await page.locator('.quick-input-list .monaco-list-row', { hasText: TITLE }).first().click();
    await list.first().waitFor();
  };
  await steps.step('the walkthrough opens with its steps', async () => {
    await open();
    const titles = await list.locator('.step-title').allTextContents();
    assert.deepEqual(titles, STEPS);
  });
  await steps.step(
    'its first button copies the sample: a room without faults, takes and all',
    async () => {
      await button('Copy the sample facility').click();
      await page
        .locator('.quick-input-widget')
        .getByRole('button', { name: 'Copy the sample here' })
        .click();
      await page.locator('.tab.active', { hasText: 'heron.room.yaml' }).waitFor();
      await page.locator('.monaco-breadcrumbs', { hasText: 'groundbass-sample' }).first().waitFor();
      await editor.goTo(lineOf('      left_mix:'));
      return editor.waitForHints('      left_mix:', / ms · /);
    },
  );
  await steps.step('its other buttons mean the room that was last worked on', async () => {
    await open();
    await list.filter({ hasText: 'Open the setup sheet' }).click();
    await button('Open the setup sheet').click();
    await page.locator('.tab.active', { hasText: 'Setup: heron' }).waitFor();
    await list.filter({ hasText: 'Dial in what is computed' }).click();
    await button('Dial in all computed settings').click();
    const told = page.locator('.notification-toast', {
      hasText: /nothing to dial in|put into the file/,
    });
    await told.waitFor();
  });
  await steps.step('and every step is ticked', async () => {
    const ticked = list.filter({ has: page.locator('.codicon-getting-started-step-checked') });
    const last = ticked.nth(STEPS.length - 1);
    await last.waitFor().catch(async (error: unknown) => {
      const titles = await ticked.locator('.step-title').allTextContents();
      throw new Error(`only ticked: ${titles.join(', ')}`, { cause: error });
    });
  });
}
