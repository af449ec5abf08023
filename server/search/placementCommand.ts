// The search for places as a command: searches, remembers what it found, and offers it to whoever has no pane to show it.

import { type MessageActionItem, MessageType, ShowMessageRequest } from 'vscode-languageserver';
import type { RoomPlacement } from '../../core/search/roomPlacement.ts';
import type { Setup } from '../../core/setup.ts';
import type { Analysis } from '../analysis.ts';
import type { Shared } from '../connect.ts';
import { candidateText, moveEdit, OFFERED } from '../features/placementActions.ts';
import { baseName } from '../files/uri.ts';
import { FIND_PLACEMENTS, type FindPlacementsArgument } from '../protocol/commands.ts';
import { placementFigures } from '../words/placementWords.ts';
import type { Searches } from './searches.ts';
import type { WorkOff } from './workOff.ts';

export function readPlacementArgument(given: unknown): FindPlacementsArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, subwoofer, quiet } = given as Partial<FindPlacementsArgument>;
  return typeof uri === 'string' && typeof subwoofer === 'string'
    ? { uri, subwoofer, quiet: quiet === true }
    : null;
}

/** @returns the figures, as the command line tells them; null where it was stopped or there is no such room */
export async function findPlacements(
  shared: Shared,
  searches: Searches,
  { uri, subwoofer, quiet }: FindPlacementsArgument,
  workOff: WorkOff,
): Promise<unknown> {
  const analysis = await shared.session.analysis(uri);
  if (analysis?.setup == null) return null;
  const { setup } = analysis;
  // Loaded with the first search: most sessions never need it.
  const { placeSubwoofers } = await import('../../core/search/roomPlacement.ts');
  const found = await workOff(
    `Searching places for ${subwoofer}`,
    placeSubwoofers(setup, { subs: [subwoofer] }),
  );
  if (found === null) return null;
  searches.placements.remember(uri, subwoofer, setup, found);
  if (!quiet)
    void offered(shared, analysis, setup, subwoofer, found).catch((error) =>
      shared.log(`${FIND_PLACEMENTS}: ${error}`),
    );
  return placementFigures(found, setup);
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
