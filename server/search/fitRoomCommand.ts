// The fit of a room to its takes as a command: fits, and offers to write the edit that it suggests.

import { type MessageActionItem, MessageType, ShowMessageRequest } from 'vscode-languageserver';
import type { RoomFromTakes } from '../../core/measured/roomFromTakes.ts';
import { type Show, showFor } from '../../core/show.ts';
import type { Shared } from '../connect.ts';
import { editsOf } from '../edits.ts';
import { baseName } from '../files/uri.ts';
import { toTextEdit } from '../lsp/convert.ts';
import type { MeasuredJob, MeasuredReply } from '../measured/measuredJob.ts';
import { FIT_ROOM, type FitRoomArgument } from '../protocol/commands.ts';
import { roomFitLines, WHY_NOT_FITTED } from '../words/roomFitWords.ts';

/** A job in a thread of its own, under a title that a person reads; null where it was stopped. */
export type DoInThread = (title: string, job: MeasuredJob) => Promise<MeasuredReply | null>;

export function readFitRoomArgument(given: unknown): FitRoomArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, session, quiet } = given as Partial<FitRoomArgument>;
  return typeof uri === 'string' && typeof session === 'string'
    ? { uri, session, quiet: quiet === true }
    : null;
}

/** @returns what was found; null where it was stopped, or the room cannot be fitted */
export async function fitRoomToTakes(
  shared: Shared,
  { uri, session, quiet }: FitRoomArgument,
  doInThread: DoInThread,
): Promise<RoomFromTakes | null> {
  const analysis = await shared.session.whole(uri);
  if (analysis?.setup == null) return null;
  const { setup } = analysis;
  const reply = await doInThread(`Fitting the room to ${session}`, { kind: 'fit', setup, session });
  if (reply?.kind === 'fault') throw new Error(reply.fault);
  const found = reply?.kind === 'fit' ? reply.found : null;
  if (found === null) return null;
  if (typeof found === 'string') {
    shared.connection.window.showInformationMessage(`${baseName(uri)}: ${WHY_NOT_FITTED[found]}`);
    return null;
  }
  if (!quiet)
    void offered(shared, uri, found, showFor(setup.room.habits)).catch((error) =>
      shared.log(`${FIT_ROOM}: ${error}`),
    );
  return found;
}

const WRITE = 'Write it';

async function offered(
  { connection, session }: Shared,
  uri: string,
  found: RoomFromTakes,
  show: Show,
): Promise<void> {
  const { fix } = found;
  const [first = '', ...rest] = roomFitLines(found, show);
  const answer: MessageActionItem | null = await connection.sendRequest(ShowMessageRequest.type, {
    type: MessageType.Info,
    message: [first, ...rest].join('; '),
    actions: fix === null ? [] : [{ title: WRITE }],
  });
  const analysis = answer?.title === WRITE ? await session.analysis(uri) : null;
  const texts = analysis && fix ? editsOf(analysis.source, fix.edits) : null;
  if (analysis === null || texts === null || fix === null) return;
  const { source } = analysis;
  const edits = texts.map((edit) => toTextEdit(source.text, edit));
  await connection.workspace.applyEdit({
    label: fix.title,
    edit: { documentChanges: [{ textDocument: { uri, version: source.version }, edits }] },
  });
}
