// `groundbass place`: where subwoofers should stand, tried on the predicted low end of the room.

import { type Command, Option } from 'commander';
import { placeSubwoofers, type RoomPlacement } from '../../../core/search/roomPlacement.ts';
import type { RoomPlacementOptions } from '../../../core/search/roomTask.ts';
import { withProgress } from '../../../core/search/transferMap.ts';
import type { Setup } from '../../../core/setup.ts';
import { type Show, showFor } from '../../../core/show.ts';
import type { Source } from '../../analysis.ts';
import { applied, editsOf } from '../../edits.ts';
import { placementEdits } from '../../placementEdits.ts';
import {
  candidateLines,
  PLACEMENT_SOURCE,
  placementFigures,
  placementScope,
} from '../../words/placementWords.ts';
import { writeBack } from '../apply.ts';
import { readRoom } from '../files.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { between, whole } from './options.ts';
import { moveOthers } from './placeOthers.ts';

interface PlaceOptions {
  readonly move: 'subwoofers' | 'mains' | 'seat';
  readonly subs?: number;
  readonly sub?: readonly string[];
  readonly grid?: number;
  readonly nearWall?: number;
  readonly alone: boolean;
  readonly keepSettings: boolean;
  readonly freeDelays: boolean;
  readonly candidates: number;
  readonly format: 'text' | 'json';
  readonly apply?: number | true;
}

export function addPlace(program: Command, io: Io): void {
  program
    .command('place')
    .description('search the best places for one to four subwoofers')
    .argument('<file>', 'a room file; - for standard input')
    .addOption(
      new Option(
        '--move <what>',
        'what is moved: the main pair stays symmetric, the seat on the middle line',
      )
        .choices(['subwoofers', 'mains', 'seat'])
        .default('subwoofers'),
    )
    .option(
      '-n, --subs <count>',
      'how many: 1 to 4; copies of the first where the room has fewer',
      whole(1, 4),
    )
    .option('--sub <id...>', 'move only these')
    .option(
      '--grid <metres>',
      'lines of the grid apart (0.1 m in box rooms, 0.25 m in others)',
      between(0.05, 1),
    )
    .option('--near-wall <metres>', 'the cabinet no farther from a wall than this', between(0, 100))
    .option('--alone', 'judge the subwoofers without the mains', false)
    .option('--keep-settings', 'leave level, delay and polarity as they are dialled in', false)
    .option(
      '--free-delays',
      'search delay and polarity freely, whatever the arrivals ask for',
      false,
    )
    .option('--candidates <count>', 'how many clearly different ones', whole(1, 20), 5)
    .addOption(new Option('-f, --format <format>').choices(['text', 'json']).default('text'))
    .option(
      '--apply [number]',
      'write a candidate into the file, its places and its settings (the first unless told otherwise)',
      whole(1, 20),
    )
    .addHelpText(
      'after',
      `
Places keep clear of walls, fixtures, seats and loudspeakers. Each is judged by how flat the bass is at the reference seat and how much
the seats differ, with the delay that the arrivals ask for there and the level and polarity that suit it best. It is a prediction:
measure before anything is screwed down. --apply edits the file, not the room: places, and the level, delay and polarity that belong
to them, in the devices' own steps.

Examples:
  $ groundbass place rooms/heron.room.yaml
  $ groundbass place rooms/heron.room.yaml --near-wall 0.5
  $ groundbass place rooms/heron.room.yaml --subs 2 --format json | jq '.candidates[0].subwoofers'
  $ groundbass place rooms/heron.room.yaml --apply 2
  $ groundbass place rooms/heron.room.yaml --move seat
`,
    )
    .action(async (path: string, options: PlaceOptions) => {
      const { room } = await readRoom(path, io, { takes: false });
      if (room.setup === null) throw new Misuse(`${path} cannot be read as a room`);
      if (options.move !== 'subwoofers')
        await moveOthers(path, room.setup, room.source, options, options.move, io);
      else await placeIn(path, room.setup, room.source, options, io);
    });
}

async function placeIn(
  path: string,
  setup: Setup,
  source: Source,
  options: PlaceOptions,
  io: Io,
): Promise<void> {
  const unknown = options.sub?.find((id) => !setup.room.subwoofers.some((sub) => sub.id === id));
  if (unknown !== undefined) throw new Misuse(`${path} has no subwoofer ${unknown}`);
  const placement = withProgress(placeSubwoofers(setup, searchOptions(options)), (share) => {
    io.tell(`Searching places … ${Math.floor(share * 100)} %`);
    return true;
  });
  io.tell(null);
  if (placement === null || placement.candidates.length === 0) {
    const [why] = placement?.notes ?? [];
    throw new Misuse(`${path}: ${why?.message ?? 'nothing found'}`);
  }
  const show = showFor(setup.room.habits);
  const isPiped = options.apply !== undefined && source.version !== null;
  const write = isPiped ? io.err : io.out;
  if (options.format === 'json')
    write(`${JSON.stringify(placementFigures(placement, setup), null, 2)}\n`);
  else write(text(placement, show, io));
  if (options.apply !== undefined) await apply(path, setup, source, placement, options.apply, io);
}

function searchOptions({
  subs,
  sub,
  grid,
  nearWall,
  alone,
  keepSettings,
  freeDelays,
  candidates,
}: PlaceOptions): RoomPlacementOptions {
  return {
    ...(subs === undefined ? {} : { subCount: subs }),
    ...(sub === undefined ? {} : { subs: sub }),
    ...(grid === undefined ? {} : { step_m: grid }),
    ...(nearWall === undefined ? {} : { nearWall_m: nearWall }),
    alone,
    keepSettings,
    freeDelays,
    candidateCount: candidates,
  };
}

function text(placement: RoomPlacement, show: Show, { colors }: Io): string {
  const { current, candidates, notes } = placement;
  const block = (name: string, lines: readonly string[]): string =>
    [`${colors.bold(name)} ${lines[0] ?? ''}`, ...lines.slice(1).map((line) => `   ${line}`)].join(
      '\n',
    );
  return `${[
    colors.dim(placementScope(placement, show)),
    ...(current === null ? [] : [block('as it stands:', candidateLines(placement, current, show))]),
    ...candidates.map((candidate, index) =>
      block(`${index + 1}:`, candidateLines(placement, candidate, show)),
    ),
    ...notes.map(({ message }) => colors.dim(`note: ${message}`)),
    colors.dim(
      `A prediction: measure before anything is screwed down. Source: ${PLACEMENT_SOURCE}`,
    ),
  ].join('\n\n')}\n`;
}

async function apply(
  path: string,
  setup: Setup,
  source: Source,
  placement: RoomPlacement,
  which: number | true,
  io: Io,
): Promise<void> {
  const number = which === true ? 1 : which;
  const candidate = placement.candidates[number - 1];
  if (candidate === undefined)
    throw new Misuse(`there is no candidate ${number}: ${placement.candidates.length} were found`);
  const edits = placementEdits(setup, placement, candidate, showFor(setup.room.habits));
  if (edits === null)
    throw new Misuse(`${path} holds fewer subwoofers than were placed: add them to the file first`);
  const texts = editsOf(source, edits);
  if (texts === null) throw new Misuse(`${path} cannot be edited there`);
  await writeBack(source, applied(source.parsed.text, texts), io);
}
