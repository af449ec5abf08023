// Drives the workbench as a person does: opens a file, reads lines, hints and problems, hovers, runs commands, types.

import type { Locator, Page } from 'playwright-core';

/** The editor writes no plain spaces. */
export function plain(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('\u200b', '');
}

export class Editor {
  readonly page: Page;

  constructor(page: Page) {
    this.page = page;
  }

  /** The text editor that has the focus, or had it last. */
  get lines(): Locator {
    return this.page
      .locator('.editor-instance .monaco-editor[role="code"] .view-line')
      .filter({ visible: true });
  }

  /** A visible line by a part of its text. */
  line(text: string | RegExp): Locator {
    return this.lines.filter({ hasText: text }).first();
  }

  /** Puts the cursor on a line (from 1), column (from 1); the line is then in view. */
  async goTo(line: number, column = 1): Promise<void> {
    await this.runCommand('Go to Line/Column...', `:${line}:${column}`);
    await this.page.keyboard.press('Enter');
    await this.page
      .locator('#status\\.editor\\.selection', { hasText: `Ln ${line}, Col ${column}` })
      .waitFor();
  }

  /** Injected texts of a line, as they are shown. */
  async hintsOf(line: Locator): Promise<readonly string[]> {
    const texts = await line.locator('[class*="dyn-rule-"]').allTextContents();
    return texts.map((text) => plain(text).trim()).filter((text) => text !== '');
  }

  /** Waits until a line has a hint like `wanted`; all hints of the line as one text. */
  async waitForHints(lineStart: string, wanted: RegExp): Promise<string> {
    const line = this.line(new RegExp(`^${escaped(lineStart)}`));
    for (const end = Date.now() + 15_000; Date.now() < end; ) {
      const hints = (await this.hintsOf(line)).join(' ');
      if (wanted.test(hints)) return hints;
      await this.page.waitForTimeout(50);
    }
    throw new Error(`${lineStart} has only these hints: ${(await this.hintsOf(line)).join(' | ')}`);
  }

  /** A visible line's own text, without hints. */
  async textOf(part: string): Promise<string> {
    const line = this.line(part);
    const all = plain(await line.innerText());
    const hints = await line.locator('[class*="dyn-rule-"]').allInnerTexts();
    return hints.reduce((text, hint) => text.replace(plain(hint), ''), all).trim();
  }

  async waitForChange(part: string, old: string): Promise<void> {
    for (const end = Date.now() + 15_000; Date.now() < end; ) {
      if ((await this.textOf(part)) !== old) return;
      await this.page.waitForTimeout(50);
    }
    throw new Error(`The line is still: ${old}`);
  }

  async problemCounts(): Promise<string> {
    const label = await this.page
      .locator('#status\\.problems a')
      .first()
      .getAttribute('aria-label');
    return label ?? '';
  }

  async selection(): Promise<string> {
    return plain(await this.page.locator('#status\\.editor\\.selection').innerText());
  }

  /** Runs a command by its title; `first` is what the input then already says, for commands that ask something. */
  async runCommand(title: string, first?: string): Promise<void> {
    await this.page.keyboard.press('F1');
    const box = this.page
      .locator(
        '.quick-input-widget .quick-input-box input[type="text"], .quick-input-widget .quick-input-box input:not([type="checkbox"])',
      )
      .first();
    await box.waitFor();
    if (first !== undefined) return box.fill(first);
    await box.fill(`>${title}`);
    await this.page
      .locator('.quick-input-list .monaco-list-row', { hasText: title })
      .first()
      .click();
  }

  /** Hovers over a text of a line until a hover shows that holds `wanted`; its whole text. */
  async hoverOver(line: Locator, token: string, wanted: string | RegExp): Promise<string> {
    const hover = this.page.locator('.monaco-hover:not(.hidden)', { hasText: wanted });
    await line.locator('span', { hasText: token }).last().hover();
    await hover.first().waitFor();
    return plain(await hover.first().innerText());
  }

  /** Puts the cursor into a line and takes one of the offered fixes. */
  async applyFix(title: string | RegExp): Promise<string> {
    await this.page.keyboard.press('Control+.');
    const entry = this.page
      .locator('.action-widget .monaco-list-row.action', { hasText: title })
      .first();
    await entry.waitFor();
    const text = plain(await entry.innerText()).trim();
    await entry.click();
    return text;
  }

  async shot(path: string): Promise<void> {
    await this.page.screenshot({ path });
  }
}

/** As a regular expression for what the editor shows, which has no plain spaces. */
function escaped(text: string): string {
  return text.replace(/[.*+?^${}()|[\]\\]/g, '\\$&').replaceAll(' ', '[ \u00a0]');
}
