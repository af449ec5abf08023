// The search for places as a command of any editor: with progress and a way to stop it, other requests served in between.

import {
  type CancellationToken,
  LSPErrorCodes,
  type MessageActionItem,
  MessageType,
  ResponseError,
  ShowMessageRequest,
  type WorkDoneProgressReporter,
} from 'vscode-languageserver';
import type { RoomPlacement } from '../core/search/roomPlacement.ts';
import type { Setup } from '../core/setup.ts';
import type { Analysis } from './analysis.ts';
import type { Shared } from './connect.ts';
import { candidateText, moveEdit, OFFERED } from './features/placementActions.ts';
import type { FieldHost } from './field/fieldJob.ts';
import { baseName } from './files/uri.ts';
import type { Placements } from './placements.ts';
import { FIND_PLACEMENTS, type FindPlacementsArgument } from './protocol/commands.ts';
import { placementFigures } from './words/placementWords.ts';

/** So long the search has the machine before others are served; steps are a few milliseconds. */
const SLICE_STEPS = 4;

export function connectSearch(
  shared: Shared,
  placements: Placements,
  after: FieldHost['after'],
): void {
  const { connection, session, log } = shared;
  connection.onExecuteCommand(async ({ command, arguments: given }, token, asked) => {
    if (command !== FIND_PLACEMENTS) {
      throw new ResponseError(LSPErrorCodes.RequestFailed, `no command ${command}`);
    }
    const wanted = readArgument(given?.[0]);
    const analysis = wanted === null ? null : await session.analysis(wanted.uri);
    if (wanted === null || analysis?.setup == null) return null;
    const told = await progressOf(shared, asked, wanted.subwoofer);
    const isStopped = () =>
      token.isCancellationRequested || told.token?.isCancellationRequested === true;
    try {
      const found = await searched(
        analysis.setup,
        wanted.subwoofer,
        told.reporter,
        isStopped,
        after,
      );
      if (found === null) return null;
      placements.remember(wanted.uri, wanted.subwoofer, analysis.setup, found);
      void offered(shared, analysis, analysis.setup, wanted.subwoofer, found).catch((error) =>
        log(`${FIND_PLACEMENTS}: ${error}`),
      );
      return placementFigures(found, analysis.setup);
    } finally {
      told.reporter.done();
    }
  });
}

function readArgument(given: unknown): FindPlacementsArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, subwoofer } = given as Partial<FindPlacementsArgument>;
  return typeof uri === 'string' && typeof subwoofer === 'string' ? { uri, subwoofer } : null;
}

interface Told {
  readonly reporter: WorkDoneProgressReporter;
  readonly token: CancellationToken | null;
}

/** The progress that the client asked for with its request, else one of our own, else none that anyone sees. */
async function progressOf(
  { connection, client }: Shared,
  asked: WorkDoneProgressReporter,
  subwoofer: string,
): Promise<Told> {
  const title = `Searching places for ${subwoofer}`;
  if (client()?.showsProgress !== true) {
    asked.begin(title, 0, undefined, true);
    return { reporter: asked, token: null };
  }
  try {
    const own = await connection.window.createWorkDoneProgress();
    own.begin(title, 0, undefined, true);
    return { reporter: own, token: own.token };
  } catch {
    return { reporter: asked, token: null };
  }
}

async function searched(
  setup: Setup,
  subwoofer: string,
  reporter: WorkDoneProgressReporter,
  isStopped: () => boolean,
  after: FieldHost['after'],
): Promise<RoomPlacement | null> {
  // Loaded with the first search: most sessions never need it.
  const { placeSubwoofers } = await import('../core/search/roomPlacement.ts');
  const work = placeSubwoofers(setup, { subs: [subwoofer] });
  let percent = 0;
  for (;;) {
    for (let count = 0; count < SLICE_STEPS; count += 1) {
      const step = work.next();
      if (step.done === true) return step.value;
      const now = Math.floor(step.value * 100);
      if (percent < now) reporter.report(now);
      percent = Math.max(percent, now);
    }
    await new Promise<void>((go) => void after(0, go));
    if (isStopped()) return null;
  }
}

/** Asks which one is wanted, in words that any editor can show; the answer becomes one undo step. */
async function offered(
  { connection, session }: Shared,
  { source: { uri } }: Analysis,
  setup: Setup,
  subwoofer: string,
  found: RoomPlacement,
): Promise<void> {
  const candidates = found.candidates.slice(0, OFFERED);
  if (candidates.length === 0) {
    connection.window.showInformationMessage(
      `${baseName(uri)}: ${found.notes[0]?.message ?? `no place found for ${subwoofer}`}`,
    );
    return;
  }
  const actions = candidates.map((candidate, index) => ({
    title: `${index + 1}: ${candidateText(setup, found, candidate)}`,
  }));
  const answer: MessageActionItem | null = await connection.sendRequest(ShowMessageRequest.type, {
    type: MessageType.Info,
    message: `Where ${subwoofer} could stand, by the predicted low end. Measure before anything is screwed down.`,
    actions,
  });
  const chosen = candidates[actions.findIndex(({ title }) => title === answer?.title)];
  const analysis = chosen === undefined ? null : await session.analysis(uri);
  if (chosen === undefined || analysis?.setup == null) return;
  const edit = moveEdit(analysis, analysis.setup, found, chosen);
  if (edit !== null) {
    await connection.workspace.applyEdit({ label: `Move ${subwoofer}`, edit });
  }
}
