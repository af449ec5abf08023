// Writes the sheet's style as a module beside it, so that the server in a web worker has it too: `npx tsx extension/build/sheetCss.ts`.

import { readFile, writeFile } from 'node:fs/promises';
import { fileURLToPath, pathToFileURL } from 'node:url';

const FOLDER = new URL('../../server/sheet/', import.meta.url);

/** The module's text for that style sheet. */
export function sheetCssModule(css: string): string {
  const text = css.replaceAll('\\', '\\\\').replaceAll('`', '\\`').replaceAll('${', '\\${');
  return `// The sheet's style as text, from sheet.css: npx tsx extension/build/sheetCss.ts\n\nexport const SHEET_CSS: string = \`${text}\`;\n`;
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const css = await readFile(new URL('sheet.css', FOLDER), 'utf8');
  const target = new URL('sheetCss.generated.ts', FOLDER);
  await writeFile(target, sheetCssModule(css));
  console.log(fileURLToPath(target));
}
