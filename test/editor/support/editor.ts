// Drives the workbench as a person does: opens a file, reads lines, hints and problems, hovers, runs commands, types.

import type { Locator, Page } from 'playwright-core';

/** The editor writes no plain spaces. */
export function plain(text: string): string {
  return text.replaceAll('\u00a0', ' ').replaceAll('\u200b', '');
}

const EDITOR = '.editor-instance .monaco-editor[role="code"]:visible';
const PATIENCE_MS = 45_000;
const HOVER_MS = 5_000;
const GO_MS = 10_000;

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
    const there = this.page.locator('#status\\.editor\\.selection', {
      hasText: `Ln ${line}, Col ${column}`,
    });
    // What opens just then may take the keys away from the input: it is asked for again.
    await this.#again(there, GO_MS, async () => {
      await this.page.keyboard.press('Escape');
      await this.runCommand('Go to Line/Column...', `:${line}:${column}`);
      await this.page.keyboard.press('Enter');
    });
  }

  /** A line as it is shown, with its wrapped rest: its own text, and the injected ones. */
  async read(start: string): Promise<{ readonly text: string; readonly hints: string }> {
    const rows = await this.page.locator(EDITOR).first().evaluate(readRows);
    const first = rows.findIndex(({ text }) => plain(text).startsWith(start));
    if (first < 0) throw new Error(`No visible line starts with: ${start}`);
    const rest = rows.slice(first + 1);
    const count = rest.findIndex(({ isNumbered }) => isNumbered);
    const whole = [
      ...rows.slice(first, first + 1),
      ...rest.slice(0, count < 0 ? rest.length : count),
    ];
    const hints = whole.flatMap((row) => row.hints);
    return {
      text: plain(whole.map(({ text }) => text).join('')),
      hints: plain(hints.join('')).trim(),
    };
  }

  /** Waits until a line has hints like `wanted`; all hints of the line as one text. */
  async waitForHints(start: string, wanted: RegExp): Promise<string> {
    return this.#until(
      async () => (await this.read(start)).hints,
      (hints) => wanted.test(hints),
    );
  }

  /** Waits until a line's own text is like `wanted`. */
  async waitForText(start: string, wanted: RegExp): Promise<string> {
    return this.#until(
      async () => (await this.read(start)).text,
      (text) => wanted.test(text),
    );
  }

  async #until(read: () => Promise<string>, isWanted: (text: string) => boolean): Promise<string> {
    let text = '';
    for (
      const end = Date.now() + PATIENCE_MS;
      Date.now() < end;
      await this.page.waitForTimeout(50)
    ) {
      text = await read().catch((error: unknown) => String(error));
      if (isWanted(text)) return text;
    }
    throw new Error(`Waited in vain; at last it was: ${text}`);
  }

  async problemCounts(): Promise<string> {
    const label = await this.page
      .locator('#status\\.problems a')
      .first()
      .getAttribute('aria-label');
    return label ?? '';
  }

  async selection(): Promise<string> {
    return plain((await this.page.locator('#status\\.editor\\.selection').textContent()) ?? '');
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
    const hover = this.page.locator('.monaco-hover:not(.hidden)', { hasText: wanted }).first();
    // Findings that come in just then close it again: the hand goes away and comes back.
    await this.#again(hover, HOVER_MS, async () => {
      await this.page.mouse.move(0, 0);
      await line.locator('span', { hasText: token }).last().hover();
    });
    return plain((await hover.textContent()) ?? '');
  }

  /** Acts until something is to be seen, each time after a while in vain. */
  async #again(wanted: Locator, each_ms: number, act: () => Promise<void>): Promise<void> {
    for (const end = Date.now() + PATIENCE_MS; Date.now() < end; ) {
      await act();
      const isThere = await wanted.waitFor({ timeout: each_ms }).then(
        () => true,
        () => false,
      );
      if (isThere) return;
    }
    throw new Error(`Tried again and again in vain: ${wanted}`);
  }

  /** The lens with these words that stands above a visible line. */
  async clickLens(title: string, start: string): Promise<void> {
    const top = await this.page.locator(EDITOR).first().evaluate(topOf, start);
    const lenses = this.page
      .locator('.codelens-decoration', { hasText: title })
      .filter({ visible: true });
    await lenses.first().waitFor();
    const tops = await lenses.evaluateAll((all) =>
      all.map((one) => one.getBoundingClientRect().top),
    );
    const above = tops.filter((one) => one < top);
    await lenses
      .nth(tops.indexOf(Math.max(...above)))
      .getByText(title)
      .click();
  }

  /** Puts the cursor into a line and takes one of the offered fixes. */
  async applyFix(title: string | RegExp): Promise<string> {
    await this.page.keyboard.press('Control+.');
    const entry = this.page
      .locator('.action-widget .monaco-list-row.action', { hasText: title })
      .first();
    await entry.waitFor();
    const text = plain((await entry.textContent()) ?? '').trim();
    await entry.click();
    return text;
  }

  async shot(path: string): Promise<void> {
    await this.page.screenshot({ path });
  }
}

interface Row {
  readonly text: string;
  readonly hints: readonly string[];
  /** Whether a line of the file begins here, rather than going on. */
  readonly isNumbered: boolean;
}

/** Runs in the page: where on the screen a line begins. */
function topOf(editor: Element, start: string): number {
  const lines = [...editor.querySelectorAll('.view-lines > .view-line')];
  const line = lines.find((one) =>
    (one.textContent ?? '').replaceAll('\u00a0', ' ').startsWith(start),
  );
  return line?.getBoundingClientRect().top ?? 0;
}

/** Runs in the page. */
function readRows(editor: Element): Row[] {
  const top = (node: Element) => Number.parseFloat((node as HTMLElement).style.top);
  const numbered = [...editor.querySelectorAll('.margin-view-overlays > div')]
    .filter((row) => row.querySelector('.line-numbers')?.textContent)
    .map(top);
  return [...editor.querySelectorAll('.view-lines > .view-line')]
    .sort((one, other) => top(one) - top(other))
    .map((line) => {
      const injected = [...line.querySelectorAll('[class*="dyn-rule-"]')];
      const hints = injected.map((hint) => hint.textContent ?? '');
      const own = line.cloneNode(true) as Element;
      for (const hint of own.querySelectorAll('[class*="dyn-rule-"]')) hint.remove();
      return { text: own.textContent ?? '', hints, isNumbered: numbered.includes(top(line)) };
    });
}
