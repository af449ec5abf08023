// Completion of file names: what lies beside the room, by its path from there; asked for only where a file is named.

import { describe, expect, test } from 'vitest';
import { completion } from '../../../server/features/completion/completion.ts';
import { asksForFile } from '../../../server/features/completion/fileItems.ts';
import { FOLDER, ROOM, ROOM_TEXT, sessionWith } from '../support/facility.ts';
import { cursorIn, withEdits } from '../support/marked.ts';

const BESIDE = {
  [`${FOLDER}/rooms/measurements/left.wav`]: '',
  [`${FOLDER}/rooms/measurements/right 2.txt`]: '100 80',
  [`${FOLDER}/rooms/mics/m1.csv`]: '100 0',
  [`${FOLDER}/rooms/notes.md`]: '',
  [`${FOLDER}/elsewhere.txt`]: '',
};

async function at(marked: string) {
  const { text, offset } = cursorIn(`${ROOM_TEXT}${marked}`);
  const session = sessionWith(text, BESIDE);
  const analysis = await session.analysis(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  const files = asksForFile(analysis, offset) ? await session.filesBeside(ROOM) : null;
  const items = completion(analysis, offset, {
    takesSnippets: false,
    suggest: null,
    files: files ?? [],
  });
  const write = (label: string) => {
    const edit = items.find((item) => item.label === label)?.textEdit;
    if (edit === undefined || !('range' in edit)) throw new RangeError(label);
    return withEdits(text, [edit]).slice(ROOM_TEXT.length);
  };
  return {
    files,
    labels: items
      .toSorted((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1))
      .map(({ label }) => label),
    write,
  };
}

const ALL = ['measurements/left.wav', 'measurements/right 2.txt', 'mics/m1.csv'];

describe('files beside the room', () => {
  test.each([
    [
      'a take’s file',
      'sessions:\n  a:\n    date: 2026-11-03\n    takes:\n      t: { file: $0, seat: mix }\n',
    ],
    [
      'half typed',
      'sessions:\n  a:\n    date: 2026-11-03\n    takes:\n      t: { file: measurements/l$0, seat: mix }\n',
    ],
    ['a correction', 'sessions:\n  a:\n    date: 2026-11-03\n    microphone: { correction: $0 }\n'],
    [
      'in block style',
      'sessions:\n  a:\n    date: 2026-11-03\n    takes:\n      t:\n        file: $0\n',
    ],
  ])('%s', async (_, marked) => {
    const { files, labels } = await at(marked);
    expect(files).toEqual(ALL);
    expect(labels.slice(0, 3)).toEqual(ALL);
  });

  test('what is chosen takes the place of what was typed', async () => {
    const { write } = await at(
      'sessions:\n  a:\n    date: 2026-11-03\n    takes:\n      t: { file: measurements/l$0, seat: mix }\n',
    );
    expect(write('measurements/left.wav')).toContain(
      't: { file: measurements/left.wav, seat: mix }',
    );
  });

  test('what is named already comes last', async () => {
    const { labels } = await at(
      'sessions:\n  a:\n    date: 2026-11-03\n    takes:\n      s: { file: measurements/left.wav, seat: mix }\n      t: { file: $0, seat: mix }\n',
    );
    expect(labels.slice(0, 3)).toEqual([...ALL.slice(1), 'measurements/left.wav']);
  });

  test('nobody looks for files where none is named', async () => {
    expect((await at('sessions:\n  a:\n    date: 2026-11-03\n    by: $0\n')).files).toBeNull();
    expect((await at('sessions:\n  a:\n    da$0\n')).files).toBeNull();
  });
});
