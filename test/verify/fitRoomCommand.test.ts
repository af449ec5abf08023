// The fit of a room as an editor's command: a job in a thread of its own that a person can stop, and the edit, written into a plan when asked for.

import { expect, test } from 'vitest';
import { CancellationTokenSource } from 'vscode-jsonrpc/node';
import type { WorkDoneProgressReporter } from 'vscode-languageserver';
import { roomFromTakes } from '../../core/measured/roomFromTakes.ts';
import type { Analysis } from '../../server/analysis.ts';
import type { Shared } from '../../server/connect.ts';
import { fitRoomActions } from '../../server/features/fitRoomActions.ts';
import { doJob, type MeasuredJob, type MeasuredReply } from '../../server/measured/measuredJob.ts';
import { FIT_ROOM } from '../../server/protocol/commands.ts';
import { fitRoomToTakes } from '../../server/search/fitRoomCommand.ts';
import { doneInThread } from '../../server/search/inThread.ts';
import { createSession } from '../../server/session.ts';
import { memoryFiles } from '../server/support/memoryFiles.ts';
import { decayTimeOf_s, roomText, roomWithTakes } from './bassTakes.ts';
import { L_SHAPE } from './knownRooms.ts';

const URI = 'file:///made/made.room.yaml';
const argument = { uri: URI, session: 'made', quiet: false };

/** The L-shaped room, 14 cm short in its file, with its takes. */
async function shortRoom(): Promise<Analysis> {
  const file = { ...L_SHAPE.room, decay_s: decayTimeOf_s(L_SHAPE.room, L_SHAPE.beta) };
  const text = roomText(file, [0, 0.14, 0]);
  const session = createSession(memoryFiles(new Map([[URI, text]])), () => '2026-11-25');
  session.open(URI, 1, text, 'groundbass-room');
  const analysis = await session.analysis(URI);
  if (analysis === null) throw new Error('not read');
  return { ...analysis, setup: roomWithTakes(text, L_SHAPE.truths, 7) };
}

interface Editor {
  readonly shared: Shared;
  readonly shown: string[];
  readonly applied: unknown[];
}

/** @param answer the button that a person presses */
function editor(analysis: Analysis, answer: string): Editor {
  const [shown, applied]: [string[], unknown[]] = [[], []];
  const show = (message: string) => void shown.push(message);
  const shared = {
    session: { whole: async () => analysis, analysis: async () => analysis },
    connection: {
      window: { showInformationMessage: show },
      sendRequest: async (_: unknown, { message }: { readonly message: string }) => {
        show(message);
        return { title: answer };
      },
      workspace: { applyEdit: async (edit: unknown) => void applied.push(edit) },
    },
    log: show,
  };
  return { shared: shared as unknown as Shared, shown, applied };
}

const here = async (_: string, job: MeasuredJob): Promise<MeasuredReply> => doJob(job);
/** The same to a lower frequency, which takes less time. */
const quickly = async (_: string, job: MeasuredJob): Promise<MeasuredReply> =>
  job.kind === 'fit'
    ? { kind: 'fit', found: roomFromTakes(job.setup, job.session, { to_hz: 120 }) }
    : doJob(job);

test('a plan is fitted, told with errors, and written corner by corner in one edit', async () => {
  const analysis = await shortRoom();
  const { shared, shown, applied } = editor(analysis, 'Write it');
  const found = await fitRoomToTakes(shared, argument, quickly);
  expect(found?.sides.find(({ side }) => side === 'depth')?.isWritten).toBe(true);
  await expect.poll(() => applied.length).toBe(1);
  expect(shown.join()).toMatch(/depth \d+ mm more ± \d+ mm/);
  expect(shown.join()).toMatch(/these takes do not tell .*width within its ± 30 mm/);
  const texts = JSON.stringify(applied);
  expect(texts).toMatch(/5\.\d+ m ± 150 mm/);
  expect(texts.match(/newText/g)).toHaveLength(4);
});

test('a fit that was stopped, or a room without takes, writes nothing', async () => {
  const analysis = await shortRoom();
  const stopped = editor(analysis, 'Write it');
  expect(await fitRoomToTakes(stopped.shared, argument, async () => null)).toBeNull();
  expect(stopped.shown).toEqual([]);
  const none = { ...analysis, setup: analysis.setup && { ...analysis.setup, measured: null } };
  const empty = editor(none, 'Write it');
  expect(await fitRoomToTakes(empty.shared, argument, here)).toBeNull();
  expect(empty.shown.join()).toContain('no session has a take of the bass');
  expect([...stopped.applied, ...empty.applied]).toEqual([]);
});

test('its lightbulb stands on a plan as on a box', async () => {
  const analysis = await shortRoom();
  const start = analysis.source.parsed.text.indexOf('plan:');
  const [action] = fitRoomActions(analysis, { start, end: start }, undefined);
  expect(action?.command?.command).toBe(FIT_ROOM);
});

const reporter = {} as WorkDoneProgressReporter;

test('whoever stops it ends the thread in the middle of the job', async () => {
  for (const isAsked of [true, false]) {
    const [asked, own] = [new CancellationTokenSource(), new CancellationTokenSource()];
    let ends = 0;
    const worker = { work: () => undefined, end: () => void ends++ };
    const told = { reporter, token: own.token };
    const answer = doneInThread<string, string>(worker, 'job', told, asked.token);
    (isAsked ? asked : own).cancel();
    expect(await answer).toBeNull();
    expect(ends).toBe(1);
  }
});

test('a job that is done ends its thread too', async () => {
  let ends = 0;
  const worker = {
    work: (job: string, done: (reply: string) => void) => done(`${job} done`),
    end: () => void ends++,
  };
  const told = { reporter, token: null };
  const { token } = new CancellationTokenSource();
  expect(await doneInThread(worker, 'job', told, token)).toBe('job done');
  expect(ends).toBe(1);
});
