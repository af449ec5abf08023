// Code actions: each cure makes its remark go away and changes no more lines than it must.

import { describe, expect, test } from 'vitest';
import { type CodeAction, TextDocumentEdit } from 'vscode-languageserver';
import { codeActions, DIAL_IN_KIND, FIX_ALL_KIND } from '../../../server/features/codeActions.ts';
import { analysisOf, ROOM_TEXT } from '../support/facility.ts';
import { changedLines, cursorIn, withEdits } from '../support/marked.ts';

async function actionsAt(
  marked: string,
  wanted?: readonly string[],
): Promise<{ readonly text: string; readonly actions: readonly CodeAction[] }> {
  const { text, offset } = cursorIn(marked);
  const analysis = await analysisOf(text);
  const range = { start: offset, end: offset };
  return { text, actions: codeActions(analysis, range, [], wanted) };
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

/** The first action whose title matches: what it changes, line by line. */
async function check(
  before: string,
  after: string,
  title: RegExp,
  want: readonly unknown[],
): Promise<void> {
  const { text, actions } = await actionsAt(ROOM_TEXT.replace(before, after));
  const action = actions.find((one) => title.test(one.title));
  expect(action?.title, actions.map((one) => one.title).join('\n')).toMatch(title);
  expect(changedLines(text, applied(text, action))).toEqual(want);
}

describe('quick fixes', () => {
  test('a mistyped key', () =>
    check('height: 2.70 m', 'hei$0gth: 2.70 m', /height/, [
      '-   size: { width: 4.20 m, depth: 5.60 m, heigth: 2.70 m }',
      '+   size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }',
    ]));

  test('a missing unit', () =>
    check('level: -3.0 dB', 'level: -3$0.0', /dB/, ['-     level: -3.0', '+     level: -3.0 dB']));

  test('a gear model by a near name', () =>
    check('gear: rail_2', 'gear: rai$0l_3', /rail_2/, [
      '-   desk: { gear: rail_3 }',
      '+   desk: { gear: rail_2 }',
    ]));

  test('an empty value', () =>
    check('    polarity: normal', '    polar$0ity:', /unknown/, [
      '-     polarity:',
      '+     polarity: unknown',
    ]));

  test('a value between the steps of the device', () =>
    check('frequency: 80 Hz', 'frequen$0cy: 78 Hz', /80 Hz/, [
      '-     crossover: { frequency: 78 Hz, slope: 24 dB/oct }',
      '+     crossover: { frequency: 80 Hz, slope: 24 dB/oct }',
    ]));
});

describe('dialling in', () => {
  const WRONG = ROOM_TEXT.replace(
    'out_left: { delay: 0.0 ms }',
    'out_left: { delay: 9.0 ms }',
  ).replace('out_right: { delay: 0.0 ms }', 'out_right: { delay: 9.0 ms }');

  test('one setting', async () => {
    const { text, actions } = await actionsAt(
      WRONG.replace('left: { delay: 9', 'left: { del$0ay: 9'),
    );
    const action = actions.find(({ title }) => /^Dial in \d.*\(delay\)/.test(title));
    expect(changedLines(text, applied(text, action))).toHaveLength(2);
  });

  test('one device', async () => {
    const { text, actions } = await actionsAt(
      WRONG.replace('left: { delay: 9', 'left: { del$0ay: 9'),
    );
    const action = actions.find(({ title }) => title === 'Dial in all computed settings of `sub`');
    const lines = changedLines(text, applied(text, action));
    expect(lines.length).toBeGreaterThanOrEqual(4);
    expect(lines.every((line) => line.startsWith('+') || line.startsWith('-'))).toBe(true);
  });

  test('the whole room, after which nothing is left to dial in', async () => {
    const { text, actions } = await actionsAt(`$0${WRONG}`, [DIAL_IN_KIND]);
    const after = applied(text, actions[0]);
    const again = await actionsAt(`$0${after}`, [DIAL_IN_KIND]);
    expect(again.actions).toEqual([]);
  });
});

test('accepting a finding takes it off the list', async () => {
  const analysis = await analysisOf(ROOM_TEXT);
  const remark = analysis.remarks.find(({ about }) => about === 'room');
  if (!remark) throw new RangeError('the small room should have some finding');
  const at = remark.range.start;
  const { text, actions } = await actionsAt(`${ROOM_TEXT.slice(0, at)}$0${ROOM_TEXT.slice(at)}`);
  const action = actions.find(({ title }) => title.startsWith(`Accept \`${remark.code}\``));
  const after = applied(text, action);
  expect(changedLines(text, after).filter((line) => line.startsWith('-'))).toEqual([]);
  const accepted = (await analysisOf(after)).remarks.find(
    ({ code, path }) => code === remark.code && path.join() === remark.path.join(),
  );
  expect(accepted?.accepted?.because).toBe('write the reason here');
});

test('all safe fixes at once', async () => {
  const off = ROOM_TEXT.replace('frequency: 80 Hz', 'frequency: 78 Hz');
  const { text, actions } = await actionsAt(`$0${off}`, [FIX_ALL_KIND]);
  const after = applied(text, actions[0]);
  expect(after).toContain('frequency: 80 Hz');
  const codes = (await analysisOf(after)).remarks.map(({ code }) => code);
  expect(codes).not.toContain('settings/off-step');
  expect(after.split('\n')).toHaveLength(text.split('\n').length);
});

test('only the kinds that are asked for', async () => {
  const { actions } = await actionsAt(ROOM_TEXT.replace('height', 'hei$0gth'), ['quickfix']);
  expect(actions.every(({ kind }) => kind === 'quickfix')).toBe(true);
  expect(actions.length).toBeGreaterThan(0);
});
