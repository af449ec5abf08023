// Draws the extension's icon from its SVG: the marketplace takes no SVG. Run by `npm run icon`, after a change of the drawing.

import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

/** For sharp screens: the icon is shown at 128. */
const SIZE_PX = 256;

const media = fileURLToPath(new URL('../media/', import.meta.url));
const browser = await chromium.launch({
  executablePath: process.env.CHROMIUM ?? '/usr/bin/chromium',
  args: ['--no-sandbox'],
});
const page = await browser.newPage({ viewport: { width: SIZE_PX, height: SIZE_PX } });
const svg = await readFile(`${media}icon.svg`, 'utf8');
await page.setContent(`<style>body{margin:0}svg{display:block}</style>${svg}`);
await page.screenshot({ path: `${media}icon.png`, omitBackground: true });
await browser.close();
