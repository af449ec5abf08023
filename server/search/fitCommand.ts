// The fit of equalisers as a command: fits, remembers what came of it, and offers to write the bands.

import { type MessageActionItem, MessageType, ShowMessageRequest } from 'vscode-languageserver';
import type { MeasuredResponses } from '../../core/equaliser/measuredResponses.ts';
import type { RoomFit, RoomFitOptions } from '../../core/equaliser/roomFit.ts';
import type { Shared } from '../connect.ts';
import { bandsEdit } from '../features/eqActions.ts';
import { baseName } from '../files/uri.ts';
import { FIT_EQUALISER, type FitEqualiserArgument } from '../protocol/commands.ts';
import { fitFigures, gainText, NOT_ON_THE_WAY, noTakes, whyNoFit } from '../words/fitWords.ts';
import type { Searches } from './searches.ts';
import type { WorkOff } from './workOff.ts';

export function readFitArgument(given: unknown): FitEqualiserArgument | null {
  if (typeof given !== 'object' || given === null) return null;
  const { uri, device, session, seats, quiet } = given as Partial<FitEqualiserArgument>;
  return typeof uri === 'string' && typeof device === 'string'
    ? {
        uri,
        device,
        quiet: quiet === true,
        ...(typeof session === 'string' ? { session } : {}),
        ...(Array.isArray(seats) && seats.every((one) => typeof one === 'string') ? { seats } : {}),
      }
    : null;
}

/** @returns the figures, as the command line tells them; null where it was stopped or there is nothing to fit */
export async function fitEqualiserOf(
  shared: Shared,
  searches: Searches,
  { uri, device, session, seats, quiet }: FitEqualiserArgument,
  workOff: WorkOff,
): Promise<unknown> {
  // The low end and the takes that are fitted are this version's own.
  const analysis = await shared.session.whole(uri);
  if (analysis?.setup == null) return null;
  const { setup } = analysis;
  const { fitRoomInSlices } = await import('../../core/equaliser/roomFit.ts');
  const { measuredResponses } = await import('../../core/equaliser/measuredResponses.ts');
  const measured = session === undefined ? null : measuredResponses(setup, { session });
  if (session !== undefined && measured === null) return refused(shared, uri, noTakes(session));
  const fits = await workOff(
    `Fitting EQ of ${device}`,
    fitRoomInSlices(setup, { devices: [device], ...(measured ? toTakes(measured, seats) : {}) }),
  );
  if (fits === null) return null;
  if (fits.length === 0)
    return refused(shared, uri, measured === null ? whyNoFit(setup) : NOT_ON_THE_WAY);
  const from = measured && { session: measured.session, takes: measured.takes };
  searches.fits.remember(uri, device, setup, { fits, from });
  if (!quiet)
    void offered(shared, uri, device, fits, from?.session ?? null).catch((error) =>
      shared.log(`${FIT_EQUALISER}: ${error}`),
    );
  return fitFigures(fits, setup, measured);
}

function refused({ connection }: Shared, uri: string, why: string): null {
  connection.window.showInformationMessage(`${baseName(uri)}: ${why}`);
  return null;
}

/** Fitted where it was measured, or at some of these seats and checked at the others. */
function toTakes(
  { given }: MeasuredResponses,
  wanted: readonly string[] | undefined,
): Pick<RoomFitOptions, 'given' | 'seats' | 'checked'> {
  const measured = [...new Set(given.map(({ seat }) => seat))];
  const seats = measured.filter((seat) => wanted?.includes(seat) ?? true);
  return { given, seats: seats.length === 0 ? measured : seats, checked: measured };
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
