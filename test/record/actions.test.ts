// Code actions of the record: each is one edit of the text that reads back as what was meant, and nothing else of the file changes.

import { expect, test } from 'vitest';
import { type CodeAction, TextDocumentEdit } from 'vscode-languageserver';
import { recordActions } from '../../server/features/recordActions.ts';
import { STARTING_CHECKS } from '../../server/words/startingChecks.ts';
import {
  analysisOf,
  FACILITY,
  FACILITY_TEXT,
  FOLDER,
  ROOM_TEXT,
  sessionWith,
  TODAY,
} from '../server/support/facility.ts';
import { changedLines, cursorIn, withEdits } from '../server/support/marked.ts';

const ASKING = {
  [FACILITY]: `${FACILITY_TEXT}listening:
  kick: { play: "own loop, slow", listen_for: one attack, level: 76 dBC }
  voice: { play: a voice }
`,
};
const TAKE = { [`${FOLDER}/rooms/left.txt`]: '100 80\n200 81\n400 79\n' };
const SESSIONS = `${ROOM_TEXT}sessions:
  autumn:
    date: 2026-11-03
    by: R. Ames
    takes:
      left_mix: { file: left.txt, drive: L, sounding: [left], seat: mix }
`;

async function actionsAt(marked: string, more: Readonly<Record<string, string>> = {}) {
  const { text, offset } = cursorIn(marked);
  const analysis = await analysisOf(text, more);
  const actions = recordActions(analysis, { start: offset, end: offset }, undefined);
  return { text, actions, fingerprint: analysis.setup?.record?.fingerprint.text ?? 'none' };
}

function applied(text: string, action: CodeAction | undefined): string {
  const [change] = action?.edit?.documentChanges ?? [];
  if (change === undefined || !TextDocumentEdit.is(change)) throw new RangeError('no edit');
  return withEdits(
    text,
    change.edits.map((edit) => ({
      range: edit.range,
      newText: 'newText' in edit ? edit.newText : '',
    })),
  );
}

const titles = (actions: readonly CodeAction[]) => actions.map(({ title }) => title);
const named = (actions: readonly CodeAction[], title: RegExp) =>
  actions.find((one) => title.test(one.title));

async function remarksOn(text: string, more: Readonly<Record<string, string>> = {}) {
  const { remarks } = await analysisOf(text, more);
  return remarks.filter(({ about, severity }) => about === 'text' && severity === 'error');
}

test('a session is tied to the set-up, and then is in date', async () => {
  const { text, actions, fingerprint } = await actionsAt(
    SESSIONS.replace('    date: 2026', '    da$0te: 2026'),
  );
  const after = applied(text, named(actions, /Write this set-up’s fingerprint to `autumn`/));
  expect(changedLines(text, after)).toEqual([`+     setup: ${fingerprint}`]);
  expect(await remarksOn(after, TAKE)).toEqual([]);
  expect((await analysisOf(after)).setup?.record?.sessions[0]?.tie).toBe('in_date');
  const again = await actionsAt(after.replace('    date: 2026', '    da$0te: 2026'));
  expect(named(again.actions, /fingerprint to/)).toBeUndefined();
});

test('signing off, by whoever measured last', async () => {
  const { text, actions, fingerprint } = await actionsAt(
    SESSIONS.replace('name: Test', 'name: Te$0st'),
  );
  const after = applied(text, named(actions, /^Sign off this set-up$/));
  expect(changedLines(text, after)).toEqual([
    `+ signed_off: { date: ${TODAY}, by: "R. Ames", setup: ${fingerprint}, recheck: 12 months }`,
  ]);
  expect((await analysisOf(after)).setup?.record).toMatchObject({
    state: 'signed',
    signOff: { tie: 'in_date', due: '2027-11-25', isMeasured: true },
  });
});

test('where nobody measured the name is left to be written; where the policy has a re-check it is not repeated', async () => {
  const policy = { [FACILITY]: FACILITY_TEXT.replace('[0+2+0] }', '[0+2+0], recheck: 6 months }') };
  const { text, actions, fingerprint } = await actionsAt(
    ROOM_TEXT.replace('name: Test', 'name: Te$0st'),
    policy,
  );
  const after = applied(text, named(actions, /^Sign off/));
  expect(changedLines(text, after)).toEqual([
    `+ signed_off: { date: ${TODAY}, by: "write your name here", setup: ${fingerprint} }`,
  ]);
});

test('a sign-off is renewed: day and fingerprint, one edit', async () => {
  const old = `${ROOM_TEXT}signed_off: { date: 2025-01-01, by: R. Ames, recheck: 12 months }\n`;
  const { text, actions, fingerprint } = await actionsAt(old.replace('signed_off', 'signed$0_off'));
  const after = applied(text, named(actions, /^Checked again and signed off today/));
  expect(changedLines(text, after)).toEqual([
    '- signed_off: { date: 2025-01-01, by: R. Ames, recheck: 12 months }',
    `+ signed_off: { date: ${TODAY}, by: R. Ames, recheck: 12 months, setup: ${fingerprint} }`,
  ]);
});

test('the facility’s checks that the room lacks, with what to fill in', async () => {
  const room = `${ROOM_TEXT}listening:\n  voice: { play: a voice, result: good }\n`;
  const { text, actions } = await actionsAt(room.replace('listening:', 'listen$0ing:'), ASKING);
  const after = applied(text, named(actions, /^Add the facility’s listening checks \(1\)$/));
  expect(changedLines(text, after)).toEqual([
    '+   kick: { play: "own loop, slow", listen_for: "one attack", level: 76 dBC, result: unknown }',
  ]);
  expect(await remarksOn(after, ASKING)).toEqual([]);
  const { actions: then } = await actionsAt(after.replace('listening:', 'listen$0ing:'), ASKING);
  expect(named(then, /listening checks/)).toBeUndefined();
});

test('a starting list in a room, and in a facility, where nobody has one', async () => {
  const { text, actions } = await actionsAt(ROOM_TEXT.replace('room: 1', 'ro$0om: 1'));
  const after = applied(text, named(actions, /^Add a starting list/));
  expect(await remarksOn(after)).toEqual([]);
  const { setup } = await analysisOf(after);
  expect(setup?.room.listening?.map(({ id, play }) => [id, play])).toEqual(
    STARTING_CHECKS.map(({ id, play }) => [id, play]),
  );
  expect(setup?.record?.listening.every(({ state }) => state === 'open')).toBe(true);

  const facility = await sessionWith(ROOM_TEXT).analysis(FACILITY);
  if (facility === null) throw new RangeError('the facility was not read');
  const [action, ...others] = recordActions(facility, { start: 0, end: 0 }, undefined);
  expect(others).toEqual([]);
  const asked = applied(FACILITY_TEXT, action);
  const room = await analysisOf(ROOM_TEXT, { [FACILITY]: asked });
  expect(room.setup?.room.askedListening?.length).toBe(STARTING_CHECKS.length);
  const changed = await sessionWith(ROOM_TEXT, { [FACILITY]: asked }).analysis(FACILITY);
  expect(changed?.remarks).toEqual([]);
});

test('a check that was just heard', async () => {
  const room = `${ROOM_TEXT}listening:\n  voice: { play: a voice, result: unknown }\n`;
  const { text, actions, fingerprint } = await actionsAt(room.replace('voice:', 'voi$0ce:'));
  const after = applied(text, named(actions, /^Note `voice` as good, heard today$/));
  expect(changedLines(text, after)).toEqual([
    '-   voice: { play: a voice, result: unknown }',
    `+   voice: { play: a voice, result: good, date: ${TODAY}, setup: ${fingerprint} }`,
  ]);
});

test('nothing of this is offered where it does not belong, or while the set-up cannot be read', async () => {
  const { actions } = await actionsAt(SESSIONS.replace('polarity: normal', 'polarity: nor$0mal'));
  expect(titles(actions)).toEqual([]);
  const faulty = SESSIONS.replace('width: 4.20 m', 'width: 4.20').replace(
    '    date: 2026',
    '    da$0te: 2026',
  );
  expect(titles((await actionsAt(faulty)).actions)).toEqual([]);
});
