// What an editor shows of takes: a hint at the end of each line, a hover with its derivation, a lens that leads to the curve.

import { beforeAll, expect, test } from 'vitest';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import type { Analysis } from '../../server/analysis.ts';
import { codeLenses } from '../../server/features/codeLenses.ts';
import { documentLinks } from '../../server/features/documentLinks.ts';
import { documentSymbols } from '../../server/features/documentSymbols.ts';
import { hover } from '../../server/features/hover.ts';
import { inlayHints } from '../../server/features/inlayHints/inlayHints.ts';
import { measurementHints } from '../../server/features/inlayHints/measurementHints.ts';
import { DEFAULT_SETTINGS } from '../../server/protocol/settings.ts';
import { measuredRoom } from './measuredRoom.ts';

let analysis: Analysis;
beforeAll(async () => {
  analysis = await measuredRoom();
});

const COMMANDS = { openPreview: 'open', showProblems: null, suggest: null };

function hintTexts(kinds = DEFAULT_SETTINGS.hints): ReadonlyMap<string, string> {
  const { text } = analysis.source;
  const range = { start: { line: 0, character: 0 }, end: { line: text.lineCount, character: 0 } };
  const hints = inlayHints(analysis, range, kinds);
  const byTake = new Map<string, string>();
  for (const { position, label } of hints) {
    const start = { line: position.line, character: 0 };
    const key = /^ {6}(\w+):/.exec(text.getText({ start, end: position }))?.[1];
    const words = typeof label === 'string' ? label : label.map(({ value }) => value).join('');
    if (key !== undefined) byTake.set(key, (byTake.get(key) ?? '') + words);
  }
  return byTake;
}

test('hints: fit, arrival and level, each line within the 43 characters that an editor shows', () => {
  const texts = hintTexts();
  const summaryOf = (take: string) =>
    analysis.setup?.verification?.takes.find((one) => one.take === take)?.summary ?? '?';
  // Flat at 0.5 with its tail: see the level of the same sound in readTake.test.ts.
  expect(texts.get('left')).toMatch(/ · 7\.50 ms · -[45]\.\d dB$/);
  expect(texts.get('left')).toContain(summaryOf('left').split(',')[0]);
  expect(texts.get('sub_text')).toMatch(/dB SPL$/);
  expect(texts.has('broken')).toBe(false);
  for (const text of texts.values()) expect(text.length).toBeLessThanOrEqual(43);
});

test('the hints on takes can be switched off', () => {
  const texts = hintTexts({ ...DEFAULT_SETTINGS.hints, measurement: false });
  expect(texts.has('left')).toBe(false);
});

test('a fit in many words gives way to the figures', () => {
  const { setup } = analysis;
  if (setup === null) throw new RangeError('no setup');
  const long = '10.52 ms late, polarity turned, 12.5 dB quieter, 80 % outside the envelope';
  const verification = {
    sessions: [],
    takes: (setup.verification?.takes ?? []).map((one) => ({ ...one, summary: long })),
  };
  const [first] = measurementHints({ ...setup, verification }, showFor(setup.room.habits));
  expect(first?.parts[0]?.text).toBe('10.52 ms late and 3 more');
});

test('a take that is being read says so', () => {
  const { setup } = analysis;
  const [first] = measurementHints(pending(setup), showFor(pending(setup).room.habits));
  expect(first?.parts.map(({ text }) => text)).toEqual(['being read …']);
});

test('hover: figures with the windows, the smoothing and what the take refuses', () => {
  const offset = analysis.source.text.getText().indexOf('left: { file: takes/');
  const text = hoverText(offset + 1);
  expect(text).toContain('This take: an impulse response');
  expect(text).toContain('arrival 7.50 ms after playing began, by its first peak');
  expect(text).toContain('polarity upright');
  expect(text).toContain('mean power 500 Hz to 2 kHz; only differences between takes');
  expect(text).toContain('read from 48 kHz, 24-bit integer');
  expect(text).toContain('response from 20.00 ms before the sound to 500.00 ms after its start');
  expect(text).toContain('power over 1/6 octave');
  expect(text).toContain('Against the plan: ');
  expect(text).toContain('No decay time at ');
});

test('hover: on a text what it cannot tell; on a broken file its finding alone', () => {
  const all = analysis.source.text.getText();
  expect(hoverText(all.indexOf('sub_text:') + 1)).toContain('No arrival, polarity, decay');
  const broken = hoverText(all.indexOf('takes/broken.wav') + 1);
  expect(broken).toContain('this is no WAV file');
  expect(broken).not.toContain('This take');
});

test('a lens on each take leads to its place in the sheet', () => {
  const lenses = codeLenses(analysis, COMMANDS).filter(
    ({ command }) => command?.title === 'Compare with plan',
  );
  expect(lenses.map(({ command }) => command?.arguments)).toEqual(
    ['left', 'sub_text', 'broken'].map((take) => [
      analysis.source.uri,
      ['sessions', 'autumn', 'takes', take],
    ]),
  );
  const lines = analysis.source.text.getText().split('\n');
  expect(lenses.map(({ range }) => lines[range.start.line]?.trim().split(':')[0])).toEqual([
    'left',
    'sub_text',
    'broken',
  ]);
  expect(codeLenses(analysis, { ...COMMANDS, openPreview: null })).toEqual([]);
});

test('the files of takes are links, sessions and takes are symbols', () => {
  expect(documentLinks(analysis).map(({ target }) => target?.split('/').at(-1))).toEqual([
    'left.wav',
    'sub.txt',
    'broken.wav',
  ]);
  const names = JSON.stringify(documentSymbols(analysis));
  for (const name of ['autumn', 'left', 'sub_text', 'broken']) expect(names).toContain(`"${name}"`);
});

function hoverText(offset: number): string {
  const shown = hover(analysis, offset, null)?.contents;
  return typeof shown === 'object' && 'value' in shown ? shown.value : '';
}

function pending(setup: Setup | null): Setup {
  if (!setup?.measured) throw new RangeError('no takes');
  const sessions = setup.measured.sessions.map((session) => ({
    ...session,
    takes: session.takes.map((take) => ({ ...take, isPending: true })),
  }));
  return { ...setup, measured: { ...setup.measured, sessions } };
}
