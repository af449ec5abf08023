// The project's own source files as text, for the tests that look at the code base itself.

import { readFileSync } from 'node:fs';
import { globSync } from 'tinyglobby';

export interface SourceFile {
  /** From the top of the project, with slashes. */
  readonly path: string;
  readonly text: string;
}

const ROOT = new URL('../../', import.meta.url);
const NOT_OURS = ['**/node_modules/**', '**/dist/**', 'test/fixtures/**', 'test/editor/host/**'];

/** Files that match, sorted by path; generated ones only where asked for by name. */
export function sources(patterns: readonly string[]): readonly SourceFile[] {
  const paths = globSync([...patterns], {
    cwd: ROOT.pathname,
    ignore: [...NOT_OURS, '**/*.generated.*'],
  });
  return paths.toSorted().map((path) => ({ path, text: read(path) }));
}

/** One file by its path from the top. */
export function read(path: string): string {
  return readFileSync(new URL(path, ROOT), 'utf8');
}

/** A source without its comments, so that words about code are not taken for code. */
export function withoutComments(text: string): string {
  return text.replace(/\/\*[\s\S]*?\*\//g, '').replace(/(^|[^:'"`])\/\/.*$/gm, '$1');
}
