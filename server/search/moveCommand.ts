// The search for places of the main pair or the seat as a command: searches, remembers what it found, and offers it.

import { type MessageActionItem, MessageType, ShowMessageRequest } from 'vscode-languageserver';
import type { MovedResult } from '../../core/search/mainsAndSeat.ts';
import type { Setup } from '../../core/setup.ts';
import type { Shared } from '../connect.ts';
import { movedText, moveOthersEdit, nameOf } from '../features/moveActions.ts';
import { OFFERED } from '../features/placementActions.ts';
import { baseName } from '../files/uri.ts';
import { MOVE_OTHERS, type MoveOthersArgument } from '../protocol/commands.ts';
import type { Searches } from './searches.ts';
import type { WorkOff } from './workOff.ts';

export function readMoveArgument(given: unknown): MoveOthersArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, move, quiet } = given as Partial<MoveOthersArgument>;
  return typeof uri === 'string' && (move === 'mains' || move === 'seat')
    ? { uri, move, quiet: quiet === true }
    : null;
}

/** @returns current and candidates; null where it was stopped or there is nothing to move */
export async function findOtherPlaces(
  shared: Shared,
  searches: Searches,
  { uri, move, quiet }: MoveOthersArgument,
  workOff: WorkOff,
): Promise<MovedResult | null> {
  const analysis = await shared.session.analysis(uri);
  if (analysis?.setup == null) return null;
  const { setup } = analysis;
  const search = await import('../../core/search/mainsAndSeat.ts');
  const work = move === 'seat' ? search.searchSeatInSlices : search.searchMainsInSlices;
  const found = await workOff(`Searching places for ${nameOf(setup, move)}`, work(setup));
  if (found === null) return null;
  searches.moves.remember(uri, move, setup, found);
  if (!quiet)
    void offered(shared, uri, setup, move, found).catch((error) =>
      shared.log(`${MOVE_OTHERS}: ${error}`),
    );
  return found;
}

async function offered(
  { connection, session }: Shared,
  uri: string,
  setup: Setup,
  what: MoveOthersArgument['move'],
  found: MovedResult,
): Promise<void> {
  const candidates = found.candidates.slice(0, OFFERED);
  const name = nameOf(setup, what);
  if (candidates.length === 0) {
    connection.window.showInformationMessage(`${baseName(uri)}: no place found for ${name}`);
    return;
  }
  const actions = candidates.map((candidate, index) => ({
    title: `${index + 1}: ${movedText(setup, candidate)}`,
  }));
  const answer: MessageActionItem | null = await connection.sendRequest(ShowMessageRequest.type, {
    type: MessageType.Info,
    message: `Where ${name} could stand, by the predicted low end. Measure before anything is screwed down.`,
    actions,
  });
  const chosen = candidates[actions.findIndex(({ title }) => title === answer?.title)];
  const analysis = chosen === undefined ? null : await session.analysis(uri);
  if (chosen === undefined || analysis?.setup == null) return;
  const edit = moveOthersEdit(analysis, analysis.setup, what, chosen);
  if (edit !== null) await connection.workspace.applyEdit({ label: `Move ${name}`, edit });
}
