// `groundbass figures`: every computed figure of one room as JSON.

import type { Command } from 'commander';
import { figures } from '../../figures/figures.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

export function addFigures(program: Command, io: Io): void {
  program
    .command('figures')
    .description('print every computed figure of a room as JSON')
    .argument('<file>', 'a room file; - for standard input')
    .option('--compact', 'on one line', false)
    .addHelpText(
      'after',
      `
Figures are in the unit that their key ends in. One that cannot be computed is null; notes[] says why.

Examples:
  $ groundbass figures rooms/heron.room.yaml | jq '.space.schroeder_hz'
  $ groundbass figures rooms/heron.room.yaml | jq '.seats.mix.arrivals | map_values(.flight_ms)'
`,
    )
    .action(async (path: string, { compact }: { readonly compact: boolean }) => {
      const { room } = await readRoom(path, io);
      if (room.setup === null) throw new Misuse(`${path} cannot be read as a room`);
      io.out(`${JSON.stringify(figures(room.setup, room.remarks), null, compact ? 0 : 2)}\n`);
    });
}
