// One page of one workbench, ready to be driven: in each of the three ways that the extension can run.

import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import type { Browser, Page } from 'playwright-core';
import { startBrowser, watchOutside } from './browser.ts';
import { Editor } from './editor.ts';
import { ROOT, SHOTS, VSIX } from './paths.ts';
import { serveWebExtension } from './webExtension.ts';
import { startWebWorkbench } from './webWorkbench.ts';
import { startWorkbench, type Workbench } from './workbench.ts';

/** `server`: the packaged extension on Node; `web`: in a browser's worker; `web-min`: the same, in the oldest version supported. */
export type Mode = 'server' | 'web' | 'web-min';

export interface Session {
  readonly mode: Mode;
  readonly page: Page;
  readonly editor: Editor;
  /** Addresses asked for outside this machine. */
  readonly outside: readonly string[];
  /** What the page complained of. */
  readonly complaints: readonly string[];
  /** Loads the workbench afresh with this room of the demo facility open; resolves when its text is there. */
  openRoom(room: string): Promise<void>;
  /** Loads the workbench afresh with what was open. */
  reopen(): Promise<void>;
  /** The text of a room as it lies in the folder. */
  textOf(room: string): string;
  changeSettings(settings: Readonly<Record<string, unknown>>): void;
  shot(name: string): Promise<void>;
  logs(): string;
  close(): Promise<void>;
}

/** Patient: a machine of two busy cores is slow, and a fault shows all the same. */
const WAIT_MS = 40_000;

export async function startSession(
  mode: Mode,
  settings: Readonly<Record<string, unknown>> = {},
  viewport: { readonly width: number; readonly height: number } = { width: 1500, height: 950 },
): Promise<Session> {
  const folder = mkdtempSync(`${tmpdir()}/groundbass-facility-`);
  cpSync(`${ROOT}examples`, folder, { recursive: true });
  const shots = `${SHOTS}${mode}/`;
  mkdirSync(shots, { recursive: true });
  const host =
    mode === 'web-min'
      ? await startWebWorkbench(folder)
      : await startWorkbench({ folder, settings, ...(mode === 'server' && { vsix: VSIX }) });
  const browser = await startBrowser();
  const { page, outside, complaints } = await openPage(browser, host, mode, viewport);
  const editor = new Editor(page);
  return {
    mode,
    page,
    editor,
    outside,
    complaints,
    openRoom: (room) => openRoom(editor, host, mode, folder, room),
    reopen: async () => void (await page.goto(host.url())),
    textOf: (room) => readFileSync(`${folder}/rooms/${room}.room.yaml`, 'utf8'),
    shot: async (name) => void (await page.screenshot({ path: `${shots}${name}.png` })),
    changeSettings: host.changeSettings,
    logs: host.logs,
    async close() {
      await browser.close();
      await host.stop();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

async function openPage(
  browser: Browser,
  host: Workbench,
  mode: Mode,
  viewport: { readonly width: number; readonly height: number },
) {
  // Nothing that moves by itself is looked at; drawing it without a graphics card takes a core.
  const context = await browser.newContext({ viewport, reducedMotion: 'reduce' });
  const outside = await watchOutside(context);
  if (mode === 'web') await serveWebExtension(context, host);
  // tsx gives functions their names by a helper, which those that run in the page ask for too.
  await context.addInitScript('globalThis.__name ??= (named) => named');
  const page = await context.newPage();
  page.setDefaultTimeout(WAIT_MS);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  return { page, outside, complaints };
}

async function openRoom(
  editor: Editor,
  host: Workbench,
  mode: Mode,
  folder: string,
  room: string,
): Promise<void> {
  const { page } = editor;
  const name = `${room}.room.yaml`;
  await page.goto(host.url(`${folder}/rooms/${name}`));
  await page.locator('.monaco-workbench').waitFor();
  if (mode === 'web-min') {
    const entry = (text: string) =>
      page.locator('.explorer-folders-view .monaco-list-row', { hasText: text }).first();
    await entry('rooms').waitFor();
    if (!(await entry('.room.yaml').isVisible())) await entry('rooms').click();
    await entry(name).dblclick();
  }
  await page.locator('.tab.active', { hasText: name }).waitFor();
  await page.locator('.monaco-editor .view-line').first().waitFor();
  await editor.goTo(1); // The editor remembers where it was scrolled to.
  await editor.line('room:').waitFor();
}
