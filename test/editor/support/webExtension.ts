// Makes the workbench run the extension as a web extension: in the browser's worker host, from "browser" in package.json.
//
// The page's configuration names it as an extension under development at an http address.

import { statSync } from 'node:fs';
import { resolve, sep } from 'node:path';
import type { BrowserContext } from 'playwright-core';
import { UNPACKED } from './paths.ts';
import type { Workbench } from './workbench.ts';

const PREFIX = '/extension-under-development';

interface Location {
  readonly scheme: string;
  readonly authority: string;
  readonly path: string;
}

export async function serveWebExtension(context: BrowserContext, host: Workbench): Promise<void> {
  // The workbench's own policy lets it fetch from its own origin only, so the files appear there.
  await context.route(
    (url) => url.origin === host.origin && url.pathname.startsWith(`${PREFIX}/`),
    (route) => {
      const path = fileOf(new URL(route.request().url()).pathname);
      return path ? route.fulfill({ path }) : route.fulfill({ status: 404, body: '' });
    },
  );
  // Written into the page before its scripts run. (A page that we answered ourselves would count as from outside, and
  // Chromium would cut it off from the server.)
  await context.addInitScript(nameExtension, {
    scheme: 'http',
    authority: `127.0.0.1:${host.port}`,
    path: PREFIX,
  });
}

function fileOf(pathname: string): string | null {
  const root = resolve(UNPACKED);
  const file = resolve(root, `.${decodeURIComponent(pathname.slice(PREFIX.length))}`);
  return file.startsWith(root + sep) && statSync(file, { throwIfNoEntry: false })?.isFile()
    ? file
    : null;
}

/** Runs in the page. */
function nameExtension(location: Location): void {
  if (window !== window.top) return;
  document.addEventListener('readystatechange', () => {
    const meta = document.getElementById('vscode-workbench-web-configuration');
    if (document.readyState !== 'interactive' || !meta) return;
    const settings = JSON.parse(meta.dataset.settings ?? '{}');
    settings.developmentOptions = { ...settings.developmentOptions, extensions: [location] };
    meta.dataset.settings = JSON.stringify(settings);
  });
}
