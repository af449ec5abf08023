// The fit of equalisers as a command: fits, remembers what came of it, and offers to write the bands.

import { type MessageActionItem, MessageType, ShowMessageRequest } from 'vscode-languageserver';
import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import type { Shared } from '../connect.ts';
import { bandsEdit } from '../features/eqActions.ts';
import { baseName } from '../files/uri.ts';
import { FIT_EQUALISER, type FitEqualiserArgument } from '../protocol/commands.ts';
import { fitFigures, gainText, whyNoFit } from '../words/fitWords.ts';
import type { Searches } from './searches.ts';
import type { WorkOff } from './workOff.ts';

export function readFitArgument(given: unknown): FitEqualiserArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, device, session, quiet } = given as Partial<FitEqualiserArgument>;
  return typeof uri === 'string' && typeof device === 'string'
    ? {
        uri,
        device,
        quiet: quiet === true,
        ...(typeof session === 'string' ? { session } : {}),
      }
    : null;
}

/** @returns the figures, as the command line tells them; null where it was stopped or there is nothing to fit */
export async function fitEqualiserOf(
  shared: Shared,
  searches: Searches,
  { uri, device, session, quiet }: FitEqualiserArgument,
  workOff: WorkOff,
): Promise<unknown> {
  // The low end that is fitted is this version's own.
  const analysis = await shared.session.whole(uri);
  if (analysis?.setup == null) return null;
  const { setup } = analysis;
  const { fitRoomInSlices } = await import('../../core/equaliser/roomFit.ts');
  const { measuredResponses } = await import('../../core/equaliser/measuredResponses.ts');
  const measured = session === undefined ? null : measuredResponses(setup, { session });
  const seats = measured && [...new Set(measured.given.map(({ seat }) => seat))];
  const fits = await workOff(
    `Fitting EQ of ${device}`,
    fitRoomInSlices(setup, {
      devices: [device],
      ...(measured && seats ? { given: measured.given, seats } : {}),
    }),
  );
  if (fits === null) return null;
  if (fits.length === 0) {
    shared.connection.window.showInformationMessage(`${baseName(uri)}: ${whyNoFit(setup)}`);
    return null;
  }
  searches.fits.remember(uri, device, setup, fits);
  if (!quiet)
    void offered(shared, uri, device, fits, measured?.session ?? null).catch((error) =>
      shared.log(`${FIT_EQUALISER}: ${error}`),
    );
  return fitFigures(fits, setup, measured);
}

const WRITE = 'Write the bands';

async function offered(
  { connection, session }: Shared,
  uri: string,
  device: string,
  fits: readonly RoomFit[],
  measuredIn: string | null,
): Promise<void> {
  const hasBands = fits.some(({ fit: { bands } }) => 0 < bands.length);
  const result = hasBands
    ? `EQ of ${device}, distance from the target before and after: ${gainText(fits)}.`
    : `EQ of ${device}: nothing that a band would mend.`;
  const answer: MessageActionItem | null = await connection.sendRequest(ShowMessageRequest.type, {
    type: MessageType.Info,
    message:
      measuredIn === null
        ? `${result} From a prediction: starting values until the room was measured.`
        : `${result} From takes of ${measuredIn}.`,
    actions: hasBands ? [{ title: WRITE }] : [],
  });
  const analysis = answer?.title === WRITE ? await session.analysis(uri) : null;
  const edit = analysis === null ? null : bandsEdit(analysis, fits);
  if (edit !== null) await connection.workspace.applyEdit({ label: `Fit EQ of ${device}`, edit });
}
