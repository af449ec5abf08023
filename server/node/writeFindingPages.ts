// Writes the pages of docs/findings from the records of rules and problems; removes pages of findings that are no more.
//
// Run by hand after a rule or a problem was added or worded anew; a test fails while the pages are stale.

import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { findingPages } from '../pages/findingPages.ts';

const folder = new URL('../../docs/findings/', import.meta.url);
const pages = findingPages();

mkdirSync(folder, { recursive: true });
for (const name of readdirSync(folder)) {
  if (name.endsWith('.md') && !pages.has(name)) rmSync(new URL(name, folder));
}
for (const [name, text] of pages) writeFileSync(new URL(name, folder), text);
