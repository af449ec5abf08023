// Looks into the setup sheet: a webview is two nested frames.

import type { FrameLocator, Locator, Page } from 'playwright-core';

export class SheetFrame {
  readonly frame: FrameLocator;

  constructor(page: Page) {
    this.frame = page.frameLocator('iframe.webview.ready').frameLocator('iframe#active-frame');
  }

  get title(): Locator {
    return this.frame.locator('h1');
  }

  /** Row of a source in the table of arrivals at a seat; the first of its rows where several sets share it. */
  arrival(seat: string, source: string): Locator {
    return this.frame
      .locator(`[aria-label="Arrivals at ${seat}"] tbody tr`)
      .filter({ has: this.frame.locator('th button', { hasText: new RegExp(`^${source}(,|$)`) }) })
      .first();
  }

  /** Distance as the table tells it, such as `2.10 m`. */
  async distance(seat: string, source: string): Promise<string> {
    return ((await this.arrival(seat, source).locator('td').first().textContent()) ?? '').trim();
  }
}
