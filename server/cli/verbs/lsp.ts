// `groundbass lsp`: the language server for any editor, on standard input and output.

import type { Command } from 'commander';
import type { Io } from '../io.ts';

export function addLsp(program: Command, io: Io): void {
  program
    .command('lsp')
    .description('run the language server for an editor')
    .option('--stdio', 'speak on standard input and output (the only way, so it may be left out)')
    .addHelpText(
      'after',
      `
How to set up an editor: docs/editors.md.

Examples:
  $ groundbass lsp --stdio
`,
    )
    .action(async () => {
      const { serveStdio } = await import('../../node/serveStdio.ts');
      await serveStdio(io.err);
    });
}
