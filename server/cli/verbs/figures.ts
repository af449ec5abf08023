// `groundbass figures`: every computed figure of one room as JSON.

import type { Command } from 'commander';
import type { Setup } from '../../../core/setup.ts';
import { transfers } from '../../../core/withField.ts';
import { type FiguresOptions, figures } from '../../figures/figures.ts';
import { readGrid } from '../../figures/grid.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

export function addFigures(program: Command, io: Io): void {
  program
    .command('figures')
    .description('print every computed figure of a room as JSON')
    .argument('<file>', 'a room file; - for standard input')
    .option('--compact', 'on one line', false)
    .option('--transfer', 'the room alone too, from every source to every seat', false)
    .option('--frequencies <from:to:step>', 'grid of responses and transfers, Hz')
    .addHelpText(
      'after',
      `
Figures are in the unit that their key ends in. One that cannot be computed is null; notes[] says why.

Examples:
  $ groundbass figures rooms/heron.room.yaml | jq '.space.schroeder_hz'
  $ groundbass figures rooms/heron.room.yaml | jq '.seats.mix.arrivals | map_values(.flight_ms)'
  $ groundbass figures rooms/heron.room.yaml --transfer --frequencies 20:200:1 > heron.json
`,
    )
    .action(async (path: string, options: Options) => {
      const grid_hz = options.frequencies === undefined ? null : gridOf(options.frequencies);
      const { room } = await readRoom(path, io);
      const { setup, remarks } = room;
      if (setup === null) throw new Misuse(`${path} cannot be read as a room`);
      const more = { grid_hz, transfers: options.transfer ? transfersOf(setup, grid_hz) : null };
      io.out(`${JSON.stringify(figures(setup, remarks, more), null, options.compact ? 0 : 2)}\n`);
    });
}

interface Options {
  readonly compact: boolean;
  readonly transfer: boolean;
  readonly frequencies?: string;
}

function gridOf(text: string): readonly number[] {
  const grid_hz = readGrid(text);
  if (grid_hz === null)
    throw new Misuse(`--frequencies ${text}: from:to:step in Hz is expected, such as 20:200:1`);
  return grid_hz;
}

/** Without a grid, on that of the responses. A plan that no mesh fits has no transfers; the notes say so. */
function transfersOf(setup: Setup, grid_hz: readonly number[] | null): FiguresOptions['transfers'] {
  if (!setup.field) return [];
  return transfers(setup, grid_hz ?? setup.field.frequency_hz);
}
