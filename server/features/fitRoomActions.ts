// Code actions on a room's space and sessions: fit the room to what was measured.

import { type CodeAction, CodeActionKind } from 'vscode-languageserver';
import type { Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { pathAt } from '../pathAt.ts';
import { FIT_ROOM, type FitRoomArgument } from '../protocol/commands.ts';

/** @param wanted the kinds asked for; undefined for all */
export function fitRoomActions(
  { source, setup }: Analysis,
  range: Range,
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const kind = CodeActionKind.RefactorRewrite;
  const asks = wanted?.some((one) => kind === one || kind.startsWith(`${one}.`)) ?? true;
  const [first, second] = pathAt(source.parsed, range.start) ?? [];
  if (!asks || setup === null || setup.room.space.shape === null) return [];
  return (setup.measured?.sessions ?? [])
    .filter(({ session }) => first === 'space' || (first === 'sessions' && second === session))
    .filter(({ takes }) => takes.some(({ response }) => response !== null))
    .map(({ session }) => {
      const argument: FitRoomArgument = { uri: source.uri, session };
      const title = `Fit the room to the takes of \`${session}\``;
      return { title, kind, command: { title, command: FIT_ROOM, arguments: [argument] } };
    });
}
