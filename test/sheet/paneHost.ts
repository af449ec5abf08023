// A stand-in for the editor around the preview's page: the same policy, the same messages, in a plain headless browser.

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import type { HostToPane, PaneState, PaneToHost } from '../../server/protocol/pane.ts';

const ENTRY = fileURLToPath(new URL('../../extension/preview/page/main.tsx', import.meta.url));
const ORIGIN = 'http://pane.invalid';
/** Patient: editors and other tests run beside this one. */
const WAIT_MS = 120_000;

export interface Bundle {
  readonly script: string;
  readonly style: string;
}

/** As the build makes it, in memory. */
export async function bundlePage(): Promise<Bundle> {
  const { outputFiles } = await build({
    entryPoints: [ENTRY],
    outdir: 'out',
    bundle: true,
    write: false,
    format: 'iife',
    jsx: 'automatic',
    jsxImportSource: 'preact',
    logLevel: 'error',
  });
  const textOf = (end: string): string =>
    outputFiles.find(({ path }) => path.endsWith(end))?.text ?? '';
  return { script: textOf('.js'), style: textOf('.css') };
}

interface HostWindow {
  readonly said: PaneToHost[];
  readonly violations: string[];
  state: PaneState | undefined;
}

export class PaneHost {
  readonly page: Page;

  private constructor(page: Page) {
    this.page = page;
  }

  static async open(
    browser: Browser,
    { script, style }: Bundle,
    {
      width = 800,
      height = 900,
      theme = 'vscode-light',
      state,
    }: {
      readonly width?: number;
      readonly height?: number;
      readonly theme?: keyof typeof THEMES;
      readonly state?: PaneState;
    } = {},
  ): Promise<PaneHost> {
    const page = await browser.newPage({ viewport: { width, height } });
    page.setDefaultTimeout(WAIT_MS);
    // Served, not set: a policy in a page that was set would not count as the page's own.
    await page.route(`${ORIGIN}/**`, async (route) => {
      const { pathname } = new URL(route.request().url());
      if (pathname === '/page.js')
        return await route.fulfill({ contentType: 'text/javascript', body: script });
      if (pathname === '/page.css')
        return await route.fulfill({ contentType: 'text/css', body: THEMES[theme] + style });
      return await route.fulfill({ contentType: 'text/html', body: html(theme) });
    });
    await page.addInitScript((kept) => {
      const host: HostWindow = { said: [], violations: [], state: kept };
      document.addEventListener('securitypolicyviolation', ({ violatedDirective }) => {
        host.violations.push(violatedDirective);
      });
      Object.assign(window, {
        host,
        acquireVsCodeApi: () => ({
          postMessage: (message: PaneToHost) => host.said.push(message),
          getState: () => host.state,
          setState: (next: PaneState) => {
            host.state = next;
          },
        }),
      });
    }, state);
    await page.goto(`${ORIGIN}/`);
    return new PaneHost(page);
  }

  async say(message: HostToPane): Promise<void> {
    await this.page.evaluate((data) => window.postMessage(data, '*'), message);
    // The message is an event of its own, drawn in the next frame; what was measured then is drawn in the one after.
    await this.page.evaluate(
      () =>
        new Promise<void>((done) => {
          const wait = (frames: number): void => {
            if (frames === 0) done();
            else requestAnimationFrame(() => wait(frames - 1));
          };
          setTimeout(() => wait(3), 20);
        }),
    );
  }

  async said<Kind extends PaneToHost['kind'] = PaneToHost['kind']>(
    kind?: Kind,
  ): Promise<readonly Extract<PaneToHost, { readonly kind: Kind }>[]> {
    const all = await this.page.evaluate(
      () => (window as unknown as { host: HostWindow }).host.said,
    );
    const isOf = (message: PaneToHost): message is Extract<PaneToHost, { readonly kind: Kind }> =>
      kind === undefined || message.kind === kind;
    return all.filter(isOf);
  }

  async state(): Promise<PaneState | undefined> {
    return await this.page.evaluate(() => (window as unknown as { host: HostWindow }).host.state);
  }

  async violations(): Promise<readonly string[]> {
    return await this.page.evaluate(
      () => (window as unknown as { host: HostWindow }).host.violations,
    );
  }
}

function html(theme: string): string {
  return `<!doctype html><html lang="en"><head><meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; script-src 'nonce-n'; style-src ${ORIGIN}">
<link rel="stylesheet" href="${ORIGIN}/page.css"><title>Setup sheet</title></head>
<body class="${theme}"><div id="root"></div><script nonce="n" src="${ORIGIN}/page.js"></script></body></html>`;
}

/** Colours in the manner of an editor's themes. */
const THEMES = {
  'vscode-light': theme('#ffffff', '#3b3b3b', '#005fb8'),
  'vscode-dark': theme('#1f1f1f', '#cccccc', '#0078d4'),
  'vscode-high-contrast': theme('#000000', '#ffffff', '#f38518', '#6fc3df'),
} as const;

function theme(background: string, foreground: string, focus: string, border = ''): string {
  return `:root { --vscode-editor-background: ${background}; --vscode-editor-foreground: ${foreground};
--vscode-focusBorder: ${focus}; --vscode-font-family: "DejaVu Sans", sans-serif;
--vscode-editor-font-family: "DejaVu Sans Mono", monospace;${border === '' ? '' : ` --vscode-contrastBorder: ${border};`} }\n`;
}

const AXE = readFileSync(fileURLToPath(import.meta.resolve('axe-core/axe.min.js')), 'utf8');

/** What axe-core (Deque; WCAG 2 A and AA, and best practices) finds wrong, as `rule: element`. */
export async function accessibilityFaults(page: Page): Promise<readonly string[]> {
  await page.evaluate(AXE);
  return await page.evaluate(async () => {
    const { axe } = window as unknown as {
      axe: { run(): Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.flatMap(({ id, nodes }) =>
      nodes.map(({ html }) => `${id}: ${html.slice(0, 160)}`),
    );
  });
}
