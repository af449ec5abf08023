// The sheet as one HTML document that needs nothing else: no script, no network, its style inside. For paper and for sending.

import { renderToString } from 'preact-render-to-string';
import type { Setup } from '../../core/setup.ts';
import type { Problems } from './findingsPart.tsx';
import { Sheet } from './sheet.tsx';
import { SHEET_CSS } from './sheetCss.generated.ts';

export interface SheetOptions {
  /** The document's title; the room's name where left out. */
  readonly title?: string;
  /** Another style than the sheet's own. */
  readonly css?: string;
  /** What it was made from, as a person calls it; printed under the title. */
  readonly generatedFrom?: string;
}

/**
 * Renders the whole document.
 *
 * @param problems faults of the file's text, listed among the findings
 * @returns an HTML document; a pure function of its arguments, without date or path of the machine
 */
export function renderSheet(
  setup: Setup,
  problems: Problems,
  {
    title = setup.room.name ?? 'Setup sheet',
    css = SHEET_CSS,
    generatedFrom = '',
  }: SheetOptions = {},
): string {
  const body = renderToString(<Sheet setup={setup} problems={problems} label={generatedFrom} />);
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<meta name="color-scheme" content="light dark">
<title>${escaped(title)}</title>
<style>
${css.replaceAll('</', '<\\/')}
</style>
</head>
<body>
${body}
</body>
</html>
`;
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}
