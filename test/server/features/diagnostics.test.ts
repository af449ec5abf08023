// Diagnostics: each fault once, at its place, with its code, its page and its related places; gone as soon as the cause is.

import { expect, test } from 'vitest';
import { diagnostics } from '../../../server/features/diagnostics.ts';
import { analysisOf, FACILITY, ROOM, ROOM_TEXT, sessionWith } from '../support/facility.ts';
import { annotationsIn } from '../support/marked.ts';

const DOCS = 'file:///docs/findings';

/** Errors and warnings of the text stand exactly where carets say, with the code that they say. */
async function check(text: string): Promise<void> {
  const found = diagnostics(await analysisOf(text), DOCS)
    .filter(({ severity }) => severity === 1)
    .map(({ range, code }) => ({
      line: range.start.line,
      from: range.start.character,
      to: range.end.character,
      text: String(code),
    }));
  expect(found).toEqual(annotationsIn(text));
}

test('the small room has no errors', () => check(ROOM_TEXT));

test('a mistyped key', () =>
  check(
    ROOM_TEXT.replace(
      '  size: { width: 4.20 m, depth: 5.60 m, height: 2.70 m }',
      `  size: { width: 4.20 m, depth: 5.60 m, hieght: 2.70 m }
  #                                     ^^^^^^ format/unknown-key`,
    ),
  ));

test('a bare number', () =>
  check(
    ROOM_TEXT.replace(
      'level: -3.0 dB',
      `level: -3.0
  #        ^^^^ quantity/unit-missing`,
    ),
  ));

test('a gear model that is nowhere', () =>
  check(
    ROOM_TEXT.replace(
      '  desk: { gear: rail_2 }',
      `  desk: { gear: rail_3 }
  #             ^^^^^^ reference/gear`,
    ),
  ));

test('each has its page and says whose it is', async () => {
  const [first] = diagnostics(await analysisOf(ROOM_TEXT.replace('rail_2', 'rail_3')), DOCS);
  expect(first?.source).toBe('groundbass');
  expect(first?.codeDescription?.href).toBe(`${DOCS}/${String(first?.code).replace('/', '-')}.md`);
});

test('a thing in two rooms is told in both, with the other place', async () => {
  const other = 'file:///facility/rooms/other.room.yaml';
  const analysis = await analysisOf(ROOM_TEXT, { [other]: ROOM_TEXT });
  const twice = diagnostics(analysis, null).find(
    ({ code }) => code === 'reference/item-in-two-rooms',
  );
  expect(twice?.relatedInformation?.[0]?.location.uri).toBe(other);
  expect(analysis.surroundings.facility?.uri).toBe(FACILITY);
});

test('an accepted finding is no diagnostic any more', async () => {
  const before = await analysisOf(ROOM_TEXT);
  const finding = before.remarks.find(({ about }) => about === 'room');
  if (!finding) throw new RangeError('the small room should have some finding');
  const accepting = `${ROOM_TEXT}accepted:\n  so_be_it: { finding: ${finding.code}, because: "it is a test" }\n`;
  const after = diagnostics(await analysisOf(accepting), null);
  expect(after.some(({ code }) => code === finding.code)).toBe(false);
  expect(diagnostics(before, null).some(({ code }) => code === finding.code)).toBe(true);
});

test('what was cured is gone with the next version', async () => {
  const session = sessionWith(ROOM_TEXT.replace('hei', 'hie'));
  const first = await session.analysis(ROOM);
  expect(first && diagnostics(first, null).some(({ severity }) => severity === 1)).toBe(true);
  session.open(ROOM, 2, ROOM_TEXT, 'groundbass-room');
  const second = await session.analysis(ROOM);
  expect(second && diagnostics(second, null).some(({ severity }) => severity === 1)).toBe(false);
});
