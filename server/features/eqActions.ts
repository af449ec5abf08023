// Code actions and lenses on what has an equaliser: fit it to the predicted response or to takes; once it is fitted, write the bands.

import {
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type Command,
} from 'vscode-languageserver';
import { devicesToFit } from '../../core/equaliser/measuredResponses.ts';
import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import type { Setup } from '../../core/setup.ts';
import type { Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { editsOf } from '../edits.ts';
import { toRange, toTextEdit } from '../lsp/convert.ts';
import { pathAt } from '../pathAt.ts';
import { nameRange } from '../places.ts';
import { FIT_EQUALISER, type FitEqualiserArgument } from '../protocol/commands.ts';
import type { Fits } from '../search/fits.ts';
import { fitEdits, gainText } from '../words/fitWords.ts';

/** @param wanted the kinds asked for; undefined for all */
export function eqActions(
  analysis: Analysis,
  range: Range,
  fits: Fits,
  wanted: readonly string[] | undefined,
): CodeAction[] {
  const { source, setup } = analysis;
  const kind = CodeActionKind.RefactorRewrite;
  const asks = wanted?.some((one) => kind === one || kind.startsWith(`${one}.`)) ?? true;
  const path = pathAt(source.parsed, range.start);
  const isThing = ['settings', ...LISTS].some((list) => list === path?.[0]);
  const device = isThing ? path?.[1] : undefined;
  if (!asks || setup === null || device === undefined || !canFit(setup, device)) return [];
  const known = fits.known(source.uri, device, setup);
  const again = known.some(({ from }) => from === null) ? ' again' : '';
  const fit: CodeAction = {
    title: `Fit EQ of \`${device}\` to the predicted response${again}`,
    kind,
    command: fitCommand(source.uri, device),
  };
  const write = known.flatMap(({ fits: found, from }): readonly CodeAction[] => {
    const edit = bandsEdit(analysis, found);
    const to = from === null ? '' : ` fitted to the takes of \`${from.session}\``;
    const what = from === null ? `the fitted EQ of \`${device}\`` : `the EQ of \`${device}\`${to}`;
    return edit === null ? [] : [{ title: `Write ${what} (${gainText(found)})`, kind, edit }];
  });
  const measured = measuredSessions(setup, device).map(
    (session): CodeAction => ({
      title: `Fit EQ of \`${device}\` to the takes of \`${session}\``,
      kind,
      command: {
        ...fitCommand(source.uri, device),
        arguments: [{ uri: source.uri, device, session }],
      },
    }),
  );
  return [...write, fit, ...measured];
}

/** Sessions with a take, at a seat, of one loudspeaker alone that the device's equaliser serves. */
function measuredSessions(setup: Setup, device: string): readonly string[] {
  return (setup.measured?.sessions ?? [])
    .map(({ session }) => session)
    .filter((session) => devicesToFit(setup, session).some((one) => one.device === device));
}

/** All bands as one edit of the text as it is now; null where there is nothing to write, or no place for it. */
export function bandsEdit(
  { source }: Analysis,
  fits: readonly RoomFit[],
): NonNullable<CodeAction['edit']> | null {
  const texts = editsOf(source, fitEdits(fits));
  if (texts === null) return null;
  const textDocument = { uri: source.uri, version: source.version };
  return {
    documentChanges: [{ textDocument, edits: texts.map((edit) => toTextEdit(source.text, edit)) }],
  };
}

const LISTS = ['subwoofers', 'speakers', 'devices'] as const;

/** Above everything with an equaliser on a way to a loudspeaker, in rooms whose low end can be predicted. */
export function eqLenses({ source, setup }: Analysis): CodeLens[] {
  if (setup === null) return [];
  return LISTS.flatMap((list) =>
    setup.room[list].flatMap(({ id }): CodeLens[] => {
      const range = canFit(setup, id) ? nameRange(source.parsed, [list, id]) : null;
      return range === null
        ? []
        : [{ range: toRange(source.text, range), command: fitCommand(source.uri, id) }];
    }),
  );
}

function fitCommand(uri: string, device: string): Command {
  const argument: FitEqualiserArgument = { uri, device };
  return { title: 'Fit EQ', command: FIT_EQUALISER, arguments: [argument] };
}

function canFit({ space, room, signalPaths }: Setup, id: string): boolean {
  return (
    space !== null &&
    space.volume_m3 !== null &&
    room.seats.some(({ at }) => at !== null) &&
    signalPaths.some(({ stages }) =>
      stages.some(
        ({ device, kind, settingPath }) => device === id && kind === 'eq' && settingPath !== null,
      ),
    )
  );
}
