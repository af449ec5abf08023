// Code actions and lenses on what has an equaliser: fit it to the predicted response or to takes; once it is fitted, write the bands.

import {
  type CodeAction,
  CodeActionKind,
  type CodeLens,
  type Command,
} from 'vscode-languageserver';
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
  const again = known === null ? '' : ' again';
  const fit: CodeAction = {
    title: `Fit EQ of \`${device}\` to the predicted response${again}`,
    kind,
    command: fitCommand(source.uri, device),
  };
  const edit = known === null ? null : bandsEdit(analysis, known);
  const write: readonly CodeAction[] =
    known === null || edit === null
      ? []
      : [{ title: `Write the fitted EQ of \`${device}\` (${gainText(known)})`, kind, edit }];
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
function measuredSessions({ measured, signalPaths }: Setup, device: string): readonly string[] {
  const served = new Set(
    signalPaths
      .filter(({ stages }) =>
        stages.some((stage) => stage.device === device && stage.kind === 'eq'),
      )
      .map(({ target }) => target),
  );
  return (measured?.sessions ?? [])
    .filter(({ takes }) =>
      takes.some(
        ({ response, seat, sounding }) =>
          response !== null &&
          seat !== null &&
          sounding.length === 1 &&
          served.has(sounding[0] ?? ''),
      ),
    )
    .map(({ session }) => session);
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
