// `groundbass fit`: the equalisers of a room fitted to its predicted low end, or to what its takes show.

import { type Command, Option } from 'commander';
import {
  type MeasuredResponses,
  measuredResponses,
} from '../../../core/equaliser/measuredResponses.ts';
import { fitRoom, type RoomFit, USUAL_BOOST_DB } from '../../../core/equaliser/roomFit.ts';
import type { Setup } from '../../../core/setup.ts';
import { type Show, showFor } from '../../../core/show.ts';
import { withField } from '../../../core/withField.ts';
import type { Source } from '../../analysis.ts';
import { applied, editsOf } from '../../edits.ts';
import { today } from '../../node/clock.ts';
import {
  fitEdits,
  fitFigures,
  fitLines,
  fitName,
  NOT_ON_THE_WAY,
  whyNoFit,
} from '../../words/fitWords.ts';
import { writeBack } from '../apply.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { between } from './options.ts';

interface FitOptions {
  readonly device?: readonly string[];
  readonly seat?: readonly string[];
  readonly boost: number;
  readonly to?: number;
  readonly session?: string;
  readonly take?: readonly string[];
  readonly format: 'text' | 'json';
  readonly apply: boolean;
}

export function addFit(program: Command, io: Io): void {
  program
    .command('fit')
    .description('fit the equalisers of a room to its predicted low end, or to its takes')
    .argument('<file>', 'a room file; - for standard input')
    .option('--device <id...>', 'only the equalisers of these devices, loudspeakers, subwoofers')
    .option('--seat <id...>', 'only for these seats (all, the reference seat counting double)')
    .option(
      '--boost <dB>',
      'most that may be raised; 0 for cuts alone',
      between(0, 12),
      USUAL_BOOST_DB,
    )
    .option(
      '--to <hertz>',
      'how far up (the larger of Schroeder’s frequency and 200 Hz)',
      between(30, 500),
    )
    .option('--session <id>', 'fit to what this session’s takes of single loudspeakers show')
    .option('--take <id...>', 'only these takes (of the latest session, unless one is named)')
    .addOption(new Option('-f, --format <format>').choices(['text', 'json']).default('text'))
    .option('--apply', 'write the bands into the file', false)
    .addHelpText(
      'after',
      `
Cuts come first; nulls are left alone; nothing is raised below the −6 dB point of a driver; bands are in the device's own steps.
From a prediction they are starting values: measure, then fit again with --session. From takes, the result is checked at every seat that
was measured; points about a seat are joined with it by power. --apply edits the file, not the device.

Examples:
  $ groundbass fit rooms/heron.room.yaml
  $ groundbass fit rooms/heron.room.yaml --device sub --boost 0
  $ groundbass fit rooms/heron.room.yaml --format json | jq '.fits[].bands'
  $ groundbass fit rooms/heron.room.yaml --session autumn_2026
  $ groundbass fit rooms/heron.room.yaml --apply
`,
    )
    .action(async (path: string, options: FitOptions) => {
      const { room } = await readRoom(path, io);
      if (room.setup === null) throw new Misuse(`${path} cannot be read as a room`);
      await fitFile(path, room.setup, room.source, options, io);
    });
}

async function fitFile(
  path: string,
  given: Setup,
  source: Source,
  options: FitOptions,
  io: Io,
): Promise<void> {
  checkIds(path, given, options);
  io.tell('Fitting equalisers …');
  const setup = given.field ? given : withField(given, { today: today(), envelope: false });
  const measured = measuredOf(path, setup, options);
  const seats = options.seat ?? measuredSeats(measured);
  const fits = fitRoom(setup, {
    ...(options.device ? { devices: options.device } : {}),
    ...(seats ? { seats } : {}),
    ...(measured ? { given: measured.given, checked: measuredSeats(measured) ?? [] } : {}),
    ...(options.to === undefined ? {} : { to_hz: options.to }),
    boost_db: options.boost,
  });
  io.tell(null);
  if (fits.length === 0)
    throw new Misuse(`${path}: ${measured === null ? whyNoFit(setup) : NOT_ON_THE_WAY}`);
  const write = options.apply && source.version !== null ? io.err : io.out;
  if (options.format === 'json')
    write(`${JSON.stringify(fitFigures(fits, setup, measured), null, 2)}\n`);
  else write(text(fits, measured, showFor(setup.room.habits), io));
  if (options.apply) await apply(path, fits, source, io);
}

/** null where a prediction is asked for. */
function measuredOf(
  path: string,
  setup: Setup,
  { session, take }: FitOptions,
): MeasuredResponses | null {
  if (session === undefined && take === undefined) return null;
  const found = measuredResponses(setup, {
    ...(session === undefined ? {} : { session }),
    ...(take === undefined ? {} : { takes: take }),
  });
  if (found === null) {
    const of = session === undefined ? 'no session' : `session ${session}`;
    throw new Misuse(`${path}: ${of} has no take of one loudspeaker at a seat that could be read`);
  }
  return found;
}

/** The result is checked where it was measured, and nowhere else. */
function measuredSeats(measured: MeasuredResponses | null): readonly string[] | undefined {
  return measured === null ? undefined : [...new Set(measured.given.map(({ seat }) => seat))];
}

function checkIds(
  path: string,
  { room }: Setup,
  { device = [], seat = [], session, take = [] }: FitOptions,
): void {
  const sessions = (room.sessions ?? []).filter(
    ({ id }) => session === undefined || id === session,
  );
  if (session !== undefined && sessions.length === 0)
    throw new Misuse(`${path} has no session ${session}`);
  const noTake = take.find(
    (id) => !sessions.some(({ takes }) => takes.some((one) => one.id === id)),
  );
  if (noTake !== undefined) throw new Misuse(`${path} has no take ${noTake}`);
  const things = [...room.devices, ...room.speakers, ...room.subwoofers].map(({ id }) => id);
  const noDevice = device.find((id) => !things.includes(id));
  if (noDevice !== undefined) throw new Misuse(`${path} has no device ${noDevice}`);
  const noSeat = seat.find((id) => !room.seats.some((one) => one.id === id));
  if (noSeat !== undefined) throw new Misuse(`${path} has no seat ${noSeat}`);
}

function text(
  fits: readonly RoomFit[],
  measured: MeasuredResponses | null,
  show: Show,
  { colors }: Io,
): string {
  const blocks = fits.map((one) => {
    const [first = '', ...rest] = fitLines(one, show);
    return [`${colors.bold(fitName(one))} ${first}`, ...rest.map((line) => `   ${line}`)].join(
      '\n',
    );
  });
  const caution =
    measured === null
      ? 'From a prediction: starting values until the room was measured.'
      : `From takes of ${measured.session}: ${measured.takes.join(', ')}. Dial it in, then measure again.`;
  return `${[...blocks, colors.dim(caution)].join('\n\n')}\n`;
}

async function apply(
  path: string,
  fits: readonly RoomFit[],
  source: Source,
  io: Io,
): Promise<void> {
  const wanted = fitEdits(fits);
  if (wanted.length === 0) return;
  const edits = editsOf(source, wanted);
  if (edits === null) throw new Misuse(`${path} cannot be edited there`);
  await writeBack(source, applied(source.parsed.text, edits), io);
}
