// Chromium without a display, with a watch over every request that would leave this machine.

import { type Browser, type BrowserContext, chromium } from 'playwright-core';
import { chromiumPath } from './paths.ts';

/** As root it starts without its sandbox only; the rest keeps it from calling anyone by itself. */
export const CHROMIUM_ARGS: readonly string[] = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

export async function startBrowser(): Promise<Browser> {
  return chromium.launch({
    executablePath: chromiumPath(),
    headless: true,
    args: [...CHROMIUM_ARGS],
  });
}

/** @returns the addresses asked for outside this machine: refused, and written down as they come */
export async function watchOutside(context: BrowserContext): Promise<readonly string[]> {
  const outside: string[] = [];
  await context.route(isOutside, (route) => {
    outside.push(route.request().url());
    return route.abort();
  });
  return outside;
}

function isOutside({ protocol, hostname }: URL): boolean {
  const isHere = ['127.0.0.1', 'localhost'].includes(hostname) || hostname.endsWith('.localhost');
  return /^(http|ws)/.test(protocol) && !isHere;
}
