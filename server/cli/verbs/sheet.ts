// `groundbass sheet`: the setup sheet of one room as a self-contained HTML document.

import { resolve } from 'node:path';
import type { Command } from 'commander';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

export function addSheet(program: Command, io: Io): void {
  program
    .command('sheet')
    .description('write the setup sheet of a room as one HTML file')
    .argument('<file>', 'a room file; - for standard input')
    .option('-o, --out <file>', 'where to write it (standard output otherwise)')
    .addHelpText(
      'after',
      `
Examples:
  $ groundbass sheet rooms/heron.room.yaml --out heron.html
  $ groundbass sheet rooms/heron.room.yaml > heron.html
`,
    )
    .action(async (path: string, { out }: { readonly out?: string }) => {
      const { room, nameOf } = await readRoom(path, io);
      if (room.setup === null) throw new Misuse(`${path} cannot be read as a room`);
      // Loaded only here: no other verb draws.
      const { sheetOf } = await import('../../sheetOf.ts');
      const html = sheetOf(room, room.setup, nameOf(room.source.uri));
      if (out === undefined || out === '-') io.out(html);
      else await write(out, html, io);
    });
}

async function write(out: string, html: string, io: Io): Promise<void> {
  try {
    await io.writeFile(resolve(io.cwd, out), html, { isNew: false });
  } catch {
    throw new Misuse(`${out} cannot be written`);
  }
}
