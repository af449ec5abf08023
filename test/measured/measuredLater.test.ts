// The third phase beside the typing: one job at a time, what is superseded is not read, a long job can be stopped.

import { beforeEach, expect, test } from 'vitest';
import { NOTHING_READ } from '../../core/measured/takeReading.ts';
import type { Analysis } from '../../server/analysis.ts';
import { doJob, type MeasuredJob, type MeasuredReply } from '../../server/measured/measuredJob.ts';
import { measuredLater } from '../../server/measured/measuredLater.ts';
import type { MeasuredPhase } from '../../server/measured/measuredPhase.ts';
import type { MeasuredHost } from '../../server/measured/measuredWorkers.ts';
import { createReadingCache } from '../../server/measured/readingCache.ts';
import { analysisOf, FOLDER, ROOM, ROOM_TEXT, TODAY } from '../server/support/facility.ts';
import { memoryFiles } from '../server/support/memoryFiles.ts';

/** A host whose time and worker stand still until the test moves them. */
class StandingHost implements MeasuredHost {
  readonly jobs: { readonly job: MeasuredJob; readonly done: (reply: MeasuredReply) => void }[] =
    [];
  ended = 0;
  #now_ms = 0;
  #timers: { readonly at_ms: number; readonly act: () => void }[] = [];

  readonly after: MeasuredHost['after'] = (time_ms, act) => {
    const timer = { at_ms: this.#now_ms + time_ms, act };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((one) => one !== timer);
    };
  };

  readonly start: MeasuredHost['start'] = () => ({
    work: (job, done) => void this.jobs.push({ job, done }),
    end: () => {
      this.ended += 1;
    },
  });

  pass(time_ms: number): void {
    this.#now_ms += time_ms;
    const due = this.#timers.filter(({ at_ms }) => at_ms <= this.#now_ms);
    this.#timers = this.#timers.filter((one) => !due.includes(one));
    for (const { act } of due) act();
  }

  answer(reply?: MeasuredReply): void {
    const last = this.jobs.at(-1);
    last?.done(reply ?? doJob(last.job));
  }
}

let host: StandingHost;
let phase: MeasuredPhase;
let changed: string[];
let stops: { readonly name: string; readonly stop: () => void }[];
let logged: string[];

const TEXTS = new Map(
  ['one', 'two', 'other'].map((name) => [`${FOLDER}/rooms/${name}.txt`, '20 1\n40 2\n80 3\n']),
);

beforeEach(() => {
  host = new StandingHost();
  changed = [];
  stops = [];
  logged = [];
  phase = measuredLater(host, memoryFiles(TEXTS), {
    changed: (uri) => void changed.push(uri),
    long: (name, stop) => {
      stops.push({ name, stop });
      return () => undefined;
    },
    log: (message) => void logged.push(message),
  });
});

function roomWith(...names: readonly string[]): Promise<Analysis> {
  const takes = names.map((name) => `${name}: { file: ${name}.txt, seat: mix }`).join(', ');
  return analysisOf(`${ROOM_TEXT}sessions: { a: { date: 2026-11-03, takes: { ${takes} } } }\n`);
}

/** Files are read without the thread: all promises that wait. */
const settled = () => new Promise((resolve) => setTimeout(resolve, 5));

const kinds = (analysis: Analysis) =>
  phase
    .known(analysis, TODAY)
    .setup?.measured?.sessions[0]?.takes.map(({ kind, isPending }) => (isPending ? '…' : kind));

test('takes one after the other; what is known is shown, the rest is pending', async () => {
  const analysis = await roomWith('one', 'two');
  expect(kinds(analysis)).toBeUndefined();
  await settled();
  expect(host.jobs).toHaveLength(1);
  host.answer();
  expect(kinds(analysis)).toEqual(['text', '…']);
  expect(changed).toEqual([]);
  await settled();
  host.answer();
  expect(kinds(analysis)).toEqual(['text', 'text']);
  expect(changed).toEqual([ROOM]);
});

test('of many takes something is told now and then', async () => {
  phase.known(await roomWith('one', 'two'), TODAY);
  await settled();
  host.answer();
  host.pass(1000);
  expect(changed).toEqual([ROOM]);
});

test('a take that the file names no more is not read', async () => {
  phase.known(await roomWith('one', 'two'), TODAY);
  phase.known(await roomWith('one', 'other'), TODAY);
  await settled();
  host.answer();
  await settled();
  host.answer();
  await settled();
  expect(host.jobs).toHaveLength(2);
  expect(kinds(await roomWith('one', 'other'))).toEqual(['text', 'text']);
});

test('a long job about a take that is gone is ended in its middle', async () => {
  phase.known(await roomWith('one'), TODAY);
  await settled();
  host.pass(1500);
  expect(stops.map(({ name }) => name)).toEqual(['one.txt']);
  phase.known(await roomWith('two'), TODAY);
  expect(host.ended).toBe(1);
  await settled();
  host.answer();
  expect(kinds(await roomWith('two'))).toEqual(['text']);
});

test('a person stops a long job: it is not begun again while the file is the same', async () => {
  const analysis = await roomWith('one');
  phase.known(analysis, TODAY);
  await settled();
  host.pass(1500);
  stops[0]?.stop();
  const [take] = phase.known(analysis, TODAY).setup?.measured?.sessions[0]?.takes ?? [];
  expect(take).toMatchObject({ kind: null, refusals: ['Not read: it took long, and was stopped'] });
  await settled();
  expect(host.jobs).toHaveLength(1);
  phase.changedOnDisk([`${FOLDER}/rooms/one.txt`]);
  phase.known(analysis, TODAY);
  await settled();
  expect(host.jobs).toHaveLength(2);
});

test('a fault of ours is told at the take and in the log', async () => {
  const analysis = await roomWith('one');
  phase.known(analysis, TODAY);
  await settled();
  host.answer({ kind: 'fault', fault: 'out of order' });
  const [take] = phase.known(analysis, TODAY).setup?.measured?.sessions[0]?.takes ?? [];
  expect(take?.faults.map(({ code }) => code)).toEqual(['measurement/unreadable']);
  expect(logged[0]).toContain('out of order');
});

test('whoever waits for a file that is closed waits no longer', async () => {
  const whole = phase.whole(await roomWith('one'), TODAY);
  phase.forget(ROOM);
  expect((await whole).setup?.measured ?? null).toBeNull();
});

test('of readings so many are kept and no more', () => {
  const cache = createReadingCache();
  const requests = Array.from({ length: 700 }, (_, i) => ({
    records: 'take' as const,
    reference: null,
    file: { name: `${i}`, uri: `${FOLDER}/${i}` },
    sweep: null,
    corrections: [],
    channel: 1,
    loopback: null,
    timing: null,
    fence: FOLDER,
  }));
  for (const request of requests) cache.set(cache.keyOf(request), request, NOTHING_READ);
  const kept = requests.filter((request) => cache.get(cache.keyOf(request)) !== null);
  expect(kept).toHaveLength(500);
  expect(requests.filter((request) => cache.older(request) !== null)).toHaveLength(500);
});
