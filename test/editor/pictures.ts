// `npm run pictures`: the pictures of the README, made anew: the demo room Heron in a real VS Code with its sheet, the sheet on paper, its takes.

import { execFileSync } from 'node:child_process';
import { mkdirSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import type { Browser, Page } from 'playwright-core';
import { startBrowser } from './support/browser.ts';
import { ROOT } from './support/paths.ts';
import { type Session, startSession } from './support/session.ts';
import { SheetFrame } from './support/sheetFrame.ts';

const IMAGES = `${ROOT}docs/images/`;
const EDITOR_PX = { width: 1600, height: 860 };
const SHEET_PX = { width: 900, height: 1900 };
/** Text stays sharp, and a picture below 200 kB. */
const QUALITY = 0.9;
/** No more than two clicks of a reader should be seen of the workbench itself. */
const SETTINGS = {
  'workbench.activityBar.location': 'hidden',
  'editor.fontSize': 13,
  'window.commandCenter': false,
  'workbench.layoutControl.enabled': false,
} as const;

mkdirSync(IMAGES, { recursive: true });
const session = await startSession('server', SETTINGS, EDITOR_PX);
try {
  await editorPicture(session);
  await takesPicture(session);
} finally {
  await session.close();
}
const browser = await startBrowser();
try {
  await sheetPicture(browser);
} finally {
  await browser.close();
}

async function editorPicture({ page, editor, openRoom, textOf }: Session): Promise<void> {
  await openRoom('heron');
  await page.keyboard.press('Control+b');
  await editor.runCommand('Groundbass: Open the Setup Sheet Beside');
  const sheet = new SheetFrame(page);
  await sheet.frame.locator('#measurements .curve-measured').first().waitFor();
  const line = lineOf(textOf('heron'), 'speakers:');
  await editor.goTo(line);
  await editor.waitForHints('  left:', / m\b/);
  await sheet.frame.locator('.drawing-box-plan').evaluate((plan) => plan.scrollIntoView());
  await shoot(page, 'editor');
}

async function takesPicture({ page, editor, textOf }: Session): Promise<void> {
  const sheet = new SheetFrame(page);
  await editor.goTo(lineOf(textOf('heron'), '      sub_mix:'));
  const part = sheet.frame.locator('#measurements');
  await part.locator('.curve-planned').first().waitFor();
  await part.getByRole('button', { name: 'Fit EQ of sub', exact: true }).click();
  await part.locator('.eq-fit').waitFor();
  await part.locator('.eq-fit').evaluate((fit) => fit.scrollIntoView());
  await shoot(page, 'takes');
}

async function sheetPicture(open: Browser): Promise<void> {
  const file = `${tmpdir()}/groundbass-picture.html`;
  const cli = `${ROOT}dist/cli/groundbass.js`;
  const room = `${ROOT}examples/rooms/heron.room.yaml`;
  execFileSync(process.execPath, [cli, 'sheet', room, '--out', file], { stdio: 'pipe' });
  const context = await open.newContext({ viewport: SHEET_PX });
  const page = await context.newPage();
  await page.goto(`file://${file}`);
  await shoot(page, 'sheet');
}

function lineOf(text: string, start: string): number {
  return text.split('\n').findIndex((line) => line.startsWith(start)) + 1;
}

/** As WebP, which the browser itself writes. */
async function shoot(page: Page, name: string): Promise<void> {
  await page.mouse.move(EDITOR_PX.width / 4, 2); // Nothing is hovered over.
  await page.waitForTimeout(1500); // What fades or is still being drawn comes to rest.
  const png = await page.screenshot();
  const blank = await page.context().newPage();
  const webp = await blank.evaluate(toWebp, { base64: png.toString('base64'), quality: QUALITY });
  await blank.close();
  const path = `${IMAGES}${name}.webp`;
  writeFileSync(path, Buffer.from(webp, 'base64'));
  console.log(`${Math.round(statSync(path).size / 1000)} kB  docs/images/${name}.webp`);
}

interface Picture {
  readonly base64: string;
  readonly quality: number;
}

/** Runs in the page. */
async function toWebp({ base64, quality }: Picture): Promise<string> {
  const image = new Image();
  image.src = `data:image/png;base64,${base64}`;
  await image.decode();
  const canvas = document.createElement('canvas');
  canvas.width = image.width;
  canvas.height = image.height;
  canvas.getContext('2d')?.drawImage(image, 0, 0);
  return canvas.toDataURL('image/webp', quality).split(',')[1] ?? '';
}
