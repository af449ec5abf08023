// Code actions on the main pair and on the reference seat: search better places; once they are known, move to one of them.

import { type CodeAction, CodeActionKind, type Command } from 'vscode-languageserver';
import type { MovedCandidate } from '../../core/search/mainsAndSeat.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { editsOf } from '../edits.ts';
import { toTextEdit } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { MOVE_OTHERS, type Moveable, type MoveOthersArgument } from '../protocol/commands.ts';
import type { Moves } from '../search/moves.ts';
import { movedJudgement, moveEdits, placesText } from '../words/moveWords.ts';
import { OFFERED } from './placementActions.ts';

/** @param wanted the kinds asked for; undefined for all */
export function moveActions(
  analysis: Analysis,
  range: Range,
  moves: Moves,
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const { source, setup } = analysis;
  const kind = CodeActionKind.RefactorRewrite;
  const asks = wanted?.some((one) => kind === one || kind.startsWith(`${one}.`)) ?? true;
  const what = setup === null ? null : moveableAt(setup, pathAt(source.parsed, range.start));
  if (!asks || setup === null || what === null) return [];
  const known = moves.known(source.uri, what, setup);
  const name = nameOf(setup, what);
  const search: CodeAction = {
    title: `Find places for ${name}${known === null ? '' : ' again'}`,
    kind,
    command: moveCommand(source.uri, what),
  };
  const found = (known?.candidates ?? []).slice(0, OFFERED).flatMap((candidate, index) => {
    const edit = moveOthersEdit(analysis, setup, what, candidate);
    const title = `Move ${name} to candidate ${index + 1} (${movedText(setup, candidate)})`;
    return edit === null ? [] : [{ title, kind, edit }];
  });
  return [...found, search];
}

/** "left x 1.30 m, y 0.90 m; …: flatness 5.8 dB, seat spread 1.3 dB". */
export function movedText({ room }: Setup, candidate: MovedCandidate): string {
  return `${placesText(candidate, showFor(room.habits))}: ${movedJudgement(candidate)}`;
}

/** The move as an edit of the text as it is now; null where it cannot be written. */
export function moveOthersEdit(
  { source }: Analysis,
  { room }: Setup,
  what: Moveable,
  candidate: MovedCandidate,
): NonNullable<CodeAction['edit']> | null {
  const texts = editsOf(source, moveEdits(what, candidate, showFor(room.habits)));
  if (texts === null) return null;
  const textDocument = { uri: source.uri, version: source.version };
  return {
    documentChanges: [{ textDocument, edits: texts.map((edit) => toTextEdit(source.text, edit)) }],
  };
}

/** "the main pair", "`mix`". */
export function nameOf({ referenceSeat }: Setup, what: Moveable): string {
  return what === 'mains' ? 'the main pair' : `\`${referenceSeat ?? 'the seat'}\``;
}

function moveCommand(uri: string, move: Moveable): Command {
  const argument: MoveOthersArgument = { uri, move };
  return { title: 'Find places', command: MOVE_OTHERS, arguments: [argument] };
}

/** What stands at a place of the file that can be moved: left or right of a pair, or the reference seat before one. */
function moveableAt(
  { room, referenceSeat, space }: Setup,
  path: readonly string[] | null,
): Moveable | null {
  const [list, id] = path ?? [];
  const pair = ['L', 'R'].map((label) =>
    room.speakers.find(({ channel, at }) => channel === label && at !== null),
  );
  const isWhole = pair.every((one) => one !== undefined);
  if (space?.volume_m3 == null || !isWhole || referenceSeat === null) return null;
  if (list === 'seats' && id === referenceSeat) return 'seat';
  return list === 'speakers' && pair.some((one) => one?.id === id) ? 'mains' : null;
}
