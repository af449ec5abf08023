// Code actions and lenses on a subwoofer: search its best places; once they are known, move it to one of them.

import {
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type Command,
} from 'vscode-languageserver';
import type { RoomCandidate, RoomPlacement } from '../../core/search/roomPlacement.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { editsOf } from '../edits.ts';
import { toRange, toTextEdit } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { placementEdits } from '../placementEdits.ts';
import type { Placements } from '../placements.ts';
import { nameRange } from '../places.ts';
import { FIND_PLACEMENTS, type FindPlacementsArgument } from '../protocol/commands.ts';
import { judgementText, positionText } from '../words/placementWords.ts';

/** How many candidates are offered. */
export const OFFERED = 3;

/** @param wanted the kinds asked for; undefined for all */
export function placementActions(
  analysis: Analysis,
  range: Range,
  placements: Placements,
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const { source, setup } = analysis;
  const kind = CodeActionKind.RefactorRewrite;
  const asks = wanted?.some((one) => kind === one || kind.startsWith(`${one}.`)) ?? true;
  const path = pathAt(source.parsed, range.start);
  const id = path?.[0] === 'subwoofers' ? path[1] : undefined;
  if (!asks || setup === null || id === undefined || !canSearch(setup)) return [];
  const known = placements.known(source.uri, id, setup);
  const search: CodeAction = {
    title: known === null ? `Find places for \`${id}\`` : `Find places for \`${id}\` again`,
    kind,
    command: searchCommand(source.uri, id, 'Find places'),
  };
  return known === null ? [search] : [...moves(analysis, setup, id, known), search];
}

function moves(
  analysis: Analysis,
  setup: Setup,
  id: string,
  placement: RoomPlacement,
): readonly CodeAction[] {
  return placement.candidates.slice(0, OFFERED).flatMap((candidate, index): CodeAction[] => {
    const edit = moveEdit(analysis, setup, placement, candidate);
    if (edit === null) return [];
    const title = `Move \`${id}\` to candidate ${index + 1} (${candidateText(setup, placement, candidate)})`;
    return [{ title, kind: CodeActionKind.RefactorRewrite, edit }];
  });
}

/** "x 2.70 m, y 3.40 m: flatness 5.8 dB, seat spread 1.3 dB". */
export function candidateText(
  { room }: Setup,
  placement: RoomPlacement,
  candidate: RoomCandidate,
): string {
  const where = positionText(placement, candidate, showFor(room.habits));
  return `${where}: ${judgementText(candidate, placement.seats.length)}`;
}

/** The move as an edit of the text as it is now; null where it cannot be written. */
export function moveEdit(
  { source }: Analysis,
  setup: Setup,
  placement: RoomPlacement,
  candidate: RoomCandidate,
): NonNullable<CodeAction['edit']> | null {
  const edits = placementEdits(setup, placement, candidate, showFor(setup.room.habits));
  const texts = edits === null ? null : editsOf(source, edits);
  if (texts === null) return null;
  const textDocument = { uri: source.uri, version: source.version };
  return {
    documentChanges: [{ textDocument, edits: texts.map((edit) => toTextEdit(source.text, edit)) }],
  };
}

/** Above every subwoofer of a room whose size is known. */
export function placementLenses({ source, setup }: Analysis): CodeLens[] {
  if (setup === null || !canSearch(setup)) return [];
  return setup.room.subwoofers.flatMap(({ id }): CodeLens[] => {
    const range = nameRange(source.parsed, ['subwoofers', id]);
    if (range === null) return [];
    const command = searchCommand(source.uri, id, 'Find places');
    return [{ range: toRange(source.text, range), command }];
  });
}

function searchCommand(uri: string, subwoofer: string, title: string): Command {
  const argument: FindPlacementsArgument = { uri, subwoofer };
  return { title, command: FIND_PLACEMENTS, arguments: [argument] };
}

function canSearch({ space, room }: Setup): boolean {
  return space !== null && space.volume_m3 !== null && room.seats.some(({ at }) => at !== null);
}
