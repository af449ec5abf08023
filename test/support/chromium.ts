// A headless browser for tests of pages: started once a file, nothing leaves the machine.

import { type Browser, chromium } from 'playwright-core';

const ARGUMENTS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--disable-dev-shm-usage',
];

export async function startChromium(): Promise<Browser> {
  return await chromium.launch({
    executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
    headless: true,
    args: ARGUMENTS,
  });
}
