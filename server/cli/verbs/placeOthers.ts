// `groundbass place --move mains|seat`: the main pair kept symmetric, or the reference seat along the middle of the room.

import {
  type MovedCandidate,
  type MovedResult,
  searchMains,
  searchSeat,
} from '../../../core/search/mainsAndSeat.ts';
import type { Setup } from '../../../core/setup.ts';
import { type Show, showFor } from '../../../core/show.ts';
import type { Source } from '../../analysis.ts';
import { applied, editsOf } from '../../edits.ts';
import { movedJudgement, moveEdits, placesText } from '../../words/moveWords.ts';
import { writeBack } from '../apply.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';

interface MoveOptions {
  readonly format: 'text' | 'json';
  readonly candidates: number;
  readonly apply?: number | true;
}

export async function moveOthers(
  path: string,
  setup: Setup,
  source: Source,
  options: MoveOptions,
  what: 'mains' | 'seat',
  io: Io,
): Promise<void> {
  io.tell(`Searching a place for the ${what} …`);
  const found = what === 'seat' ? searchSeat(setup) : searchMains(setup);
  io.tell(null);
  if (found === null || found.candidates.length === 0)
    throw new Misuse(
      `${path}: nothing to move: a left and a right loudspeaker, a reference seat and the size of the room are needed`,
    );
  const shown: MovedResult = {
    ...found,
    candidates: found.candidates.slice(0, options.candidates),
  };
  const write = options.apply !== undefined && source.version !== null ? io.err : io.out;
  if (options.format === 'json') write(`${JSON.stringify(figures(shown, what, setup), null, 2)}\n`);
  else write(text(shown, showFor(setup.room.habits), io));
  if (options.apply === undefined) return;
  const number = options.apply === true ? 1 : options.apply;
  const candidate = shown.candidates[number - 1];
  if (candidate === undefined)
    throw new Misuse(`there is no candidate ${number}: ${shown.candidates.length} were found`);
  await apply(path, setup, source, candidate, what, io);
}

function text({ current, candidates }: MovedResult, show: Show, { colors }: Io): string {
  const line = (name: string, candidate: MovedCandidate): string =>
    `${colors.bold(name)} ${placesText(candidate, show)}\n   ${movedJudgement(candidate)}`;
  return `${[
    colors.dim('left and right through all that they drive, 20 Hz to 150 Hz, settings as they are'),
    ...(current === null ? [] : [line('as it stands:', current)]),
    ...candidates.map((candidate, index) => line(`${index + 1}:`, candidate)),
    colors.dim('A prediction: measure before anything is screwed down.'),
  ].join('\n\n')}\n`;
}

function figures({ current, candidates }: MovedResult, what: 'mains' | 'seat', { room }: Setup) {
  const one = ({ places, cost_db, flatness_db, spread_db }: MovedCandidate) => ({
    [what === 'seat' ? 'seats' : 'speakers']: places,
    cost_db,
    flatness_db,
    seat_spread_db: spread_db,
  });
  return {
    version: 1,
    room: room.name,
    current: current === null ? null : one(current),
    candidates: candidates.map(one),
  };
}

async function apply(
  path: string,
  setup: Setup,
  source: Source,
  candidate: MovedCandidate,
  what: 'mains' | 'seat',
  io: Io,
): Promise<void> {
  const edits = moveEdits(what, candidate, showFor(setup.room.habits));
  const texts = editsOf(source, edits);
  if (texts === null) throw new Misuse(`${path} cannot be edited there`);
  await writeBack(source, applied(source.parsed.text, texts), io);
}
