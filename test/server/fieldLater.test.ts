// The second phase beside the typing: when it begins, what is shown until it is done, and that the newest version wins.

import { beforeEach, expect, test } from 'vitest';
import type { Analysis } from '../../server/analysis.ts';
import {
  createFieldDesk,
  type FieldHost,
  type FieldJob,
  type FieldReply,
} from '../../server/field/fieldJob.ts';
import { fieldLater } from '../../server/field/fieldLater.ts';
import type { FieldPhase } from '../../server/field/fieldPhase.ts';
import { analysisOf, ROOM, ROOM_TEXT, TODAY } from './support/facility.ts';

/** A host whose time and worker stand still until the test moves them. */
class StandingHost implements FieldHost {
  now_ms = 0;
  readonly jobs: { readonly job: FieldJob; readonly done: (reply: FieldReply) => void }[] = [];
  ended = 0;
  #timers: { readonly at_ms: number; readonly act: () => void }[] = [];

  readonly after: FieldHost['after'] = (time_ms, act) => {
    const timer = { at_ms: this.now_ms + time_ms, act };
    this.#timers.push(timer);
    return () => {
      this.#timers = this.#timers.filter((one) => one !== timer);
    };
  };

  readonly start: FieldHost['start'] = () => ({
    work: (job, done) => void this.jobs.push({ job, done }),
    forget: () => undefined,
    end: () => {
      this.ended += 1;
    },
  });

  pass(time_ms: number): void {
    this.now_ms += time_ms;
    const due = this.#timers.filter(({ at_ms }) => at_ms <= this.now_ms);
    this.#timers = this.#timers.filter((one) => !due.includes(one));
    for (const { act } of due) act();
  }

  /** The last job's answer, truly worked out unless another is given. */
  answer(reply?: FieldReply): void {
    const last = this.jobs.at(-1);
    last?.done(reply ?? createFieldDesk().work(last.job));
  }
}

let host: StandingHost;
let phase: FieldPhase;
let changed: string[];
let confirmed: string[];
let logged: string[];
let stops: (() => void)[];

beforeEach(() => {
  host = new StandingHost();
  changed = [];
  confirmed = [];
  logged = [];
  stops = [];
  phase = fieldLater(host, {
    changed: (uri) => changed.push(uri),
    confirmed: (uri) => confirmed.push(uri),
    long: (_, stop) => {
      stops.push(stop);
      return () => undefined;
    },
    log: (message) => logged.push(message),
  });
});

const LONG_PAUSE_MS = 1000;

function widthIs(width: string): Promise<Analysis> {
  return analysisOf(ROOM_TEXT.replace('width: 4.20 m', `width: ${width}`));
}

test('nothing is begun while someone types; then the newest version is, and it alone', async () => {
  for (const width of ['4.21 m', '4.22 m', '4.23 m']) {
    expect(phase.known(await widthIs(width), TODAY).setup?.field).toBeUndefined();
    host.pass(10);
  }
  expect(host.jobs).toHaveLength(0);
  host.pass(LONG_PAUSE_MS);
  expect(host.jobs.map(({ job }) => job.of.room.space.shape)).toMatchObject([{ width_m: 4.23 }]);
});

test('the answer is in the analysis, with its notes and findings, and is told once', async () => {
  const analysis = await widthIs('4.20 m');
  phase.known(analysis, TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  expect(changed).toEqual([ROOM]);
  const whole = phase.known(analysis, TODAY);
  expect(whole.setup?.field?.seats.map(({ seat }) => seat)).toEqual(['mix']);
  expect(whole.isFieldOlder).toBe(false);
  expect(whole.remarks.map(({ code }) => code)).toEqual(
    expect.arrayContaining(analysis.remarks.map(({ code }) => code)),
  );
  // Asked again, nothing is worked out again.
  expect(phase.known(analysis, TODAY)).toBe(whole);
  host.pass(LONG_PAUSE_MS);
  expect(host.jobs).toHaveLength(1);
});

test('until the new field is there, the last one stands in; a version that comes meanwhile is next', async () => {
  phase.known(await widthIs('4.20 m'), TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  const second = await widthIs('4.30 m');
  const shown = phase.known(second, TODAY);
  expect(shown.setup?.room.space.shape).toMatchObject({ width_m: 4.3 });
  expect(shown.setup?.field?.seats).toHaveLength(1);
  expect(shown.isFieldOlder).toBe(true);
  host.pass(200);
  const third = await widthIs('4.40 m');
  phase.known(third, TODAY);
  host.pass(200);
  expect(host.jobs).toHaveLength(2);
  host.answer();
  expect(host.jobs.at(-1)?.job.of.room.space.shape).toMatchObject({ width_m: 4.4 });
});

test('a field that speaks of a seat that is gone stands in for nothing', async () => {
  phase.known(await widthIs('4.20 m'), TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  const renamed = await analysisOf(
    ROOM_TEXT.replaceAll('mix:', 'desk_seat:').replace('aim: mix', 'aim: desk_seat'),
  );
  expect(phase.known(renamed, TODAY).setup?.field).toBeUndefined();
});

test('an answer that is the one before again changes nothing; it is only confirmed', async () => {
  phase.known(await widthIs('4.20 m'), TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  phase.known(await analysisOf(ROOM_TEXT.replace('name: Test room', 'name: Other room')), TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  expect(host.jobs).toHaveLength(2);
  expect([changed, confirmed]).toEqual([[ROOM], [ROOM]]);
});

test('whoever needs the whole waits for it, and no longer than its version counts', async () => {
  const analysis = await widthIs('4.20 m');
  const whole = phase.whole(analysis, TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer();
  expect((await whole).setup?.field?.method).toBe('box');
  const overtaken = phase.whole(await widthIs('4.30 m'), TODAY);
  phase.known(await widthIs('4.40 m'), TODAY);
  expect((await overtaken).setup?.room.space.shape).toMatchObject({ width_m: 4.3 });
});

test('a long job can be stopped, and is not begun again for the same walls', async () => {
  const analysis = await widthIs('4.20 m');
  const whole = phase.whole(analysis, TODAY);
  host.pass(200);
  host.pass(LONG_PAUSE_MS);
  stops[0]?.();
  expect(host.ended).toBe(1);
  expect((await whole).setup?.field).toBeUndefined();
  phase.known(await analysisOf(ROOM_TEXT.replace('level: -3.0 dB', 'level: -4.0 dB')), TODAY);
  host.pass(LONG_PAUSE_MS);
  expect(host.jobs).toHaveLength(1);
  phase.known(await widthIs('4.50 m'), TODAY);
  host.pass(LONG_PAUSE_MS);
  expect(host.jobs).toHaveLength(2);
});

test('a long job about other walls gives way to the newest; a short one is waited for', async () => {
  phase.known(await widthIs('4.20 m'), TODAY);
  host.pass(200);
  phase.known(await widthIs('4.30 m'), TODAY);
  host.pass(200);
  expect([host.jobs.length, host.ended]).toEqual([1, 0]);
  host.pass(LONG_PAUSE_MS);
  phase.known(await widthIs('4.40 m'), TODAY);
  host.pass(200);
  expect([host.jobs.length, host.ended]).toEqual([2, 1]);
  expect(host.jobs.at(-1)?.job.of.room.space.shape).toMatchObject({ width_m: 4.4 });
});

test('a closed file is forgotten: its answer changes nothing', async () => {
  phase.known(await widthIs('4.20 m'), TODAY);
  host.pass(LONG_PAUSE_MS);
  phase.forget(ROOM);
  host.answer();
  expect(changed).toEqual([]);
});

test('a fault of ours is logged and told in a note; the rest of the room stands', async () => {
  const analysis = await widthIs('4.20 m');
  phase.known(analysis, TODAY);
  host.pass(LONG_PAUSE_MS);
  host.answer({ fault: 'it broke' });
  const { setup } = phase.known(analysis, TODAY);
  expect(logged.join()).toContain('it broke');
  expect(setup?.field).toBeNull();
  expect(setup?.notes.map(({ message }) => message).join()).toContain('fault of groundbass');
  expect(setup?.space?.volume_m3).toBeCloseTo(4.2 * 5.6 * 2.7, 6);
});

test('what a hand asks comes before what waits, and is nothing to the file', async () => {
  const analysis = await analysisOf(ROOM_TEXT);
  const { setup } = analysis;
  if (setup === null) throw new Error('no setup');
  phase.known(analysis, TODAY);
  const asked = phase.quick(ROOM, setup, { kind: 'follow' });
  host.pass(120); // the file's own job waits behind it
  expect(host.jobs.map(({ job }) => job.ask?.kind)).toEqual(['follow']);
  host.answer();
  const reply = await asked;
  const field = reply !== null && 'part' in reply ? reply.part.field : null;
  expect(field?.seats[0]?.channels[0]?.lower_db).toBeNull(); // without envelope
  expect(changed).toEqual([]);
  expect(host.jobs.map(({ job }) => job.ask?.kind)).toEqual(['follow', undefined]);
});

test('while something long runs, a hand is told that there is no answer', async () => {
  const analysis = await analysisOf(ROOM_TEXT);
  const { setup } = analysis;
  if (setup === null) throw new Error('no setup');
  phase.known(analysis, TODAY);
  host.pass(120);
  const early = phase.quick(ROOM, setup, { kind: 'follow' });
  host.pass(1000); // now the job is long
  expect(await early).toBeNull();
  expect(await phase.quick(ROOM, setup, { kind: 'follow' })).toBeNull();
});

test('a map is asked of the same desk that works out the curves', async () => {
  const analysis = await analysisOf(ROOM_TEXT);
  const { setup } = analysis;
  if (setup === null) throw new Error('no setup');
  const request = {
    of: { source: 'left' },
    frequency_hz: 50,
    height_m: 1.2,
    columns: 4,
    rows: 3,
  };
  const asked = phase.quick(ROOM, setup, { kind: 'map', request });
  host.answer();
  const reply = await asked;
  const map = reply !== null && 'map' in reply ? reply.map : null;
  expect(map?.level_db).toHaveLength(12);
});
