// Searches as commands of any editor: places for a subwoofer, the mains, the seat, bands for an equaliser; with progress and a way to stop them.

import {
  type CancellationToken,
  LSPErrorCodes,
  ResponseError,
  type WorkDoneProgressReporter,
} from 'vscode-languageserver';
import type { Shared } from './connect.ts';
import type { FieldHost } from './field/fieldJob.ts';
import type { MeasuredHost } from './measured/measuredWorkers.ts';
import { FIND_PLACEMENTS, FIT_EQUALISER, FIT_ROOM, MOVE_OTHERS } from './protocol/commands.ts';
import { SETUP_CHANGED, type SetupChangedParams } from './protocol/setup.ts';
import { fitEqualiserOf, readFitArgument } from './search/fitCommand.ts';
import { type DoInThread, fitRoomToTakes, readFitRoomArgument } from './search/fitRoomCommand.ts';
import { doneInThread } from './search/inThread.ts';
import { findOtherPlaces, readMoveArgument } from './search/moveCommand.ts';
import { findPlacements, readPlacementArgument } from './search/placementCommand.ts';
import { progressOf, workedOff } from './search/progress.ts';
import type { Searches } from './search/searches.ts';
import type { WorkOff } from './search/workOff.ts';

/** @param threads where what cannot be done in slices is done */
export function connectSearch(
  shared: Shared,
  searches: Searches,
  after: FieldHost['after'],
  threads: Pick<MeasuredHost, 'start'>,
): void {
  shared.connection.onExecuteCommand(async ({ command, arguments: given }, token, asked) => {
    const workOff = worker(shared, asked, token, after);
    switch (command) {
      case FIND_PLACEMENTS: {
        const wanted = readPlacementArgument(given?.[0]);
        if (wanted === null) return null;
        const answer = await findPlacements(shared, searches, wanted, workOff);
        if (answer !== null) tellFound(shared, wanted.uri);
        return answer;
      }
      case FIT_EQUALISER: {
        const wanted = readFitArgument(given?.[0]);
        if (wanted === null) return null;
        const answer = await fitEqualiserOf(shared, searches, wanted, workOff);
        if (answer !== null) tellFound(shared, wanted.uri);
        return answer;
      }
      case MOVE_OTHERS: {
        const wanted = readMoveArgument(given?.[0]);
        if (wanted === null) return null;
        const answer = await findOtherPlaces(shared, searches, wanted, workOff);
        if (answer !== null) tellFound(shared, wanted.uri);
        return answer;
      }
      case FIT_ROOM: {
        const wanted = readFitRoomArgument(given?.[0]);
        return wanted === null
          ? null
          : fitRoomToTakes(shared, wanted, inThread(shared, asked, token, threads));
      }
      default:
        throw new ResponseError(LSPErrorCodes.RequestFailed, `no command ${command}`);
    }
  });
}

function worker(
  shared: Shared,
  asked: WorkDoneProgressReporter,
  token: CancellationToken,
  after: FieldHost['after'],
): WorkOff {
  return async (title, work) => {
    const told = await progressOf(shared, asked, title);
    try {
      return await workedOff(work, told, token, after);
    } finally {
      told.reporter.done();
    }
  };
}

function inThread(
  shared: Shared,
  asked: WorkDoneProgressReporter,
  token: CancellationToken,
  threads: Pick<MeasuredHost, 'start'>,
): DoInThread {
  return async (title, job) => {
    const told = await progressOf(shared, asked, title);
    try {
      return await doneInThread(threads.start(), job, told, token);
    } finally {
      told.reporter.done();
    }
  };
}

/** What a pane shows is asked for anew: the candidates go with the setup. */
function tellFound({ connection, session }: Shared, uri: string): void {
  const open = session.opened().find((one) => one.uri === uri);
  if (open === undefined) return;
  const params: SetupChangedParams = { uri, version: open.version };
  void connection.sendNotification(SETUP_CHANGED, params);
}
