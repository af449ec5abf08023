// `groundbass fit-room`: the room's absorption and sides fitted to what its takes show, as an edit that is suggested.

import { type Command, Option } from 'commander';
import { type RoomFromTakes, roomFromTakes } from '../../../core/measured/roomFromTakes.ts';
import { type Show, showFor } from '../../../core/show.ts';
import { applied, editsOf } from '../../edits.ts';
import { roomFitLines, WHY_NOT_FITTED } from '../../words/roomFitWords.ts';
import { writeBack } from '../apply.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

interface FitRoomOptions {
  readonly session?: string;
  readonly format: 'text' | 'json';
  readonly apply: boolean;
}

export function addFitRoom(program: Command, io: Io): void {
  program
    .command('fit-room')
    .description('fit a room’s absorption and sides to its takes, and suggest the edit')
    .argument('<file>', 'a room file; - for standard input')
    .option('--session <id>', 'the session whose takes count (the first with any)')
    .addOption(new Option('-f, --format <format>').choices(['text', 'json']).default('text'))
    .option('--apply', 'write it into the file', false)
    .addHelpText(
      'after',
      `
Only what the file leaves open is moved: sides within their stated ± (10 mm where none is stated), and what absorbs in the bass, as one
factor, with a slope over frequency or octave by octave, as the takes bear out. A plan is stretched across, along and upwards. Errors
are single deviations. It does not look for mistakes: for those, see the findings measured/cause and measured/differs.

Examples:
  $ groundbass fit-room rooms/heron.room.yaml
  $ groundbass fit-room rooms/heron.room.yaml --session autumn_2026 --apply
`,
    )
    .action(async (path: string, options: FitRoomOptions) => {
      const { room } = await readRoom(path, io);
      const { setup, source } = room;
      if (setup === null) throw new Misuse(`${path} cannot be read as a room`);
      const { session = null } = options;
      if (session !== null && !setup.room.sessions?.some(({ id }) => id === session))
        throw new Misuse(`${path} has no session ${session}`);
      io.tell('Fitting the room …');
      const found = roomFromTakes(setup, session);
      io.tell(null);
      if (typeof found === 'string') throw new Misuse(`${path}: ${WHY_NOT_FITTED[found]}`);
      const write = options.apply && source.version !== null ? io.err : io.out;
      if (options.format === 'json') write(`${JSON.stringify(figures(found), null, 2)}\n`);
      else write(text(found, showFor(setup.room.habits), io));
      if (!options.apply || found.fix === null) return;
      const edits = editsOf(source, found.fix.edits);
      if (edits === null) throw new Misuse(`${path} cannot be edited there`);
      await writeBack(source, applied(source.parsed.text, edits), io);
    });
}

function text(found: RoomFromTakes, show: Show, { colors }: Io): string {
  const [first = '', ...rest] = roomFitLines(found, show);
  return `${[colors.bold(first), ...rest.map((line) => `   ${line}`)].join('\n')}\n`;
}

/** Keys of the JSON that other tools may rely on; told in docs/command-line.md. */
function figures(found: RoomFromTakes) {
  const [width_m, depth_m, height_m] = found.size_m;
  return {
    version: 1,
    session: found.session,
    takes: found.takes,
    absorption_ratio: found.absorption_ratio,
    added_m: { width: width_m, depth: depth_m, height: height_m },
    before_db: found.before_db,
    after_db: found.after_db,
    edits: found.fix?.edits ?? [],
    absorption_form: found.form,
    bands: found.bands.map((band) => ({
      frequency_hz: band.frequency_hz,
      absorption_ratio: band.absorption_ratio,
      error_log: band.error_ratio,
      decay_stated_s: band.stated_s,
      decay_fitted_s: band.fitted_s,
      told: band.isTold,
      written: band.isWritten,
    })),
    sides: found.sides.map((side) => ({
      side: side.side,
      added_m: side.by_m,
      error_m: side.error_m,
      open_m: side.open_m,
      told: side.isTold,
      written: side.isWritten,
    })),
    speed: {
      ratio: found.speed.ratio,
      error_ratio: found.speed.error_ratio,
      told: found.speed.isTold,
    },
    decays_hz: found.decays_hz,
    spread_db: found.spread_db,
  };
}
