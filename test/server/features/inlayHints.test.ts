// Inlay hints: what stands beside which line, within the width that an editor shows, and what double-clicking does.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { inlayHints } from '../../../server/features/inlayHints/inlayHints.ts';
import { LONGEST_LINE } from '../../../server/features/inlayHints/lineBudget.ts';
import { fieldAtOnce } from '../../../server/field/fieldPhase.ts';
import { fileUri, nodeFiles } from '../../../server/node/nodeFiles.ts';
import { DEFAULT_SETTINGS, HINT_KINDS } from '../../../server/protocol/settings.ts';
import { createSession } from '../../../server/session.ts';
import { analysisOf, ROOM_TEXT, TODAY, wholeAnalysisOf } from '../support/facility.ts';
import { changedLines, withEdits } from '../support/marked.ts';

const EVERYTHING = {
  start: { line: 0, character: 0 },
  end: { line: 100_000, character: 0 },
};
const ALL_KINDS = { ...DEFAULT_SETTINGS.hints, connection: true };

async function hintsOf(text: string, kinds = DEFAULT_SETTINGS.hints, range = EVERYTHING) {
  return textsOf(text, inlayHints(await analysisOf(text), range, kinds));
}

function textsOf(text: string, hints: ReturnType<typeof inlayHints>) {
  return hints.map((hint) => ({
    ...hint,
    line: text.split('\n')[hint.position.line] ?? '',
    text: labelText(hint.label),
  }));
}

function labelText(label: string | readonly { readonly value: string }[]): string {
  return typeof label === 'string' ? label : label.map(({ value }) => value).join('');
}

async function hintBeside(text: string, word: string): Promise<readonly string[]> {
  return (await hintsOf(text)).filter(({ line }) => line.includes(word)).map((one) => one.text);
}

test('geometry: 4.20 × 5.60 × 2.70 m are 63.5 m³ (by hand)', async () => {
  // Schroeder: 2000 √(0.30 s / 63.504 m³) = 137.5 Hz, by hand (Kuttruff).
  expect((await hintBeside(ROOM_TEXT, 'size:'))[0]).toMatch(
    /^63\.5 m³ · \d+ modes · Schroeder 137 Hz$/,
  );
});

test('noise in bands has its rating beside it; noise told as a rating needs none', async () => {
  const noise = (text: string) =>
    hintBeside(ROOM_TEXT.replace('space:', `space:\n  background_noise: ${text}`), 'background');
  // (40 − 22.0)/0.87 = 20.7 (ISO/R 1996)
  expect(await noise('{ bands: { 125 Hz: 40 dB, 1 kHz: 12 dB } }')).toEqual([
    'NR 20.7, decided at 125 Hz',
  ]);
  expect(await noise('{ nr: 15 }')).toEqual([]);
});

test('arrival and angle: 1.40 m apart and 1.21 m ahead is 1.40 m and 30° (by hand)', async () => {
  // √(0.70² + 1.21²) = 1.398 m; atan(0.70 / 1.21) = 30.048°; 1.398 m ÷ 343.99 m/s = 4.06 ms (20 °C, 50 %, Cramer: 343.99 m/s).
  expect(await hintBeside(ROOM_TEXT, '  left: { gear')).toEqual(['1.40 m · 4.06 ms', ' · L 30.0°']);
  expect(await hintBeside(ROOM_TEXT, '  right: { gear')).toEqual([
    '1.40 m · 4.06 ms',
    ' · R 30.0°',
  ]);
});

test('a setting that was dialled in has a tick and nothing more to insert', async () => {
  const beside = async (text: string) =>
    (await hintsOf(text)).filter(({ line }) => line.includes('out_left: {'));
  const wrong = ROOM_TEXT.replace('out_left: { delay: 0.0 ms }', 'out_left: { delay: 9.0 ms }');
  const [offered] = await beside(wrong);
  const [hint] = await beside(withEdits(wrong, offered?.textEdits ?? []));
  expect(hint?.text).toBe('✓');
  expect(hint?.textEdits).toBeUndefined();
});

test('a setting that differs shows what to dial in, and double-click changes that line alone', async () => {
  const wrong = ROOM_TEXT.replace('out_left: { delay: 0.0 ms }', 'out_left: { delay: 9.0 ms }');
  const [hint] = (await hintsOf(wrong)).filter(({ line }) => line.includes('out_left: {'));
  expect(hint?.text).toMatch(/^→ \d\.\d ms/);
  expect(changedLines(wrong, withEdits(wrong, hint?.textEdits ?? []))).toEqual([
    '-       out_left: { delay: 9.0 ms }',
    expect.stringMatching(/^\+ {7}out_left: \{ delay: \d\.\d ms \}$/),
  ]);
});

describe('the low end', () => {
  test('dip and peak beside subwoofer, loudspeaker and seat, as the field’s own figures say', async () => {
    const analysis = await wholeAnalysisOf(ROOM_TEXT);
    const hints = textsOf(ROOM_TEXT, inlayHints(analysis, EVERYTHING, DEFAULT_SETTINGS.hints));
    const beside = (word: string) =>
      hints.filter(({ line }) => line.startsWith(`  ${word}: {`)).map(({ text }) => text);
    const here = analysis.setup?.field?.seats[0];
    const sub = here?.sources.find(({ source }) => source === 'sub')?.extremes;
    const dip = `${sub?.dip.level_db.toFixed(0)} dB`;
    expect(beside('sub').join('|')).toContain(dip);
    expect(beside('sub').join('|')).toMatch(/-\d+ dB ~?\d+ Hz · \+\d+ dB ~?\d+ Hz/);
    expect(beside('mix')).toEqual([
      expect.stringMatching(/^[LR] ±\d+ dB · -\d+ dB ~?\d+ Hz · \+\d+ dB ~?\d+ Hz$/),
    ]);
  });

  test('its tooltip says how it was got, how far to trust it, and its source', async () => {
    const analysis = await wholeAnalysisOf(ROOM_TEXT);
    const hint = inlayHints(analysis, EVERYTHING, DEFAULT_SETTINGS.hints).find(({ label }) =>
      /^( · )?-\d+ dB ~?\d+ Hz/.test(labelText(label)),
    );
    const tooltip = JSON.stringify(hint?.tooltip);
    for (const word of ['deepest dip', 'exact sound field', 'slightly different rooms', 'Source'])
      expect(tooltip).toContain(word);
  });

  test('nothing is said of it before it is known', async () => {
    expect((await hintsOf(ROOM_TEXT)).filter(({ text }) => / dB ~?\d+ Hz/.test(text))).toEqual([]);
  });
});

test('each part leads to what it depends on', async () => {
  const [hint] = (await hintsOf(ROOM_TEXT)).filter(({ line }) => line.includes('left: { gear'));
  const [part] = Array.isArray(hint?.label) ? hint.label : [];
  const line = part?.location?.range.start.line ?? -1;
  expect(ROOM_TEXT.split('\n')[line]).toContain('mix: { at:');
});

test('the tooltip gives derivation and source', async () => {
  const [hint] = (await hintsOf(ROOM_TEXT)).filter(({ line }) => line.includes('left: { gear'));
  const tooltip = JSON.stringify(hint?.tooltip);
  expect(tooltip).toContain('time of flight 1.40 m ÷ 344.0 m/s');
  expect(tooltip).toContain('Source');
});

// Hints on takes need files: test/measured/editor.test.ts switches them off.
const WITHOUT_FILES = HINT_KINDS.filter((kind) => kind !== 'measurement');

test.each(WITHOUT_FILES)('kind %s can be switched off', async (kind) => {
  const analysis = await wholeAnalysisOf(ROOM_TEXT);
  const count = (kinds: typeof ALL_KINDS): number => inlayHints(analysis, EVERYTHING, kinds).length;
  expect(count({ ...ALL_KINDS, [kind]: false })).toBeLessThan(count(ALL_KINDS));
});

test('all can be switched off', async () => {
  expect(await hintsOf(ROOM_TEXT, { ...ALL_KINDS, enabled: false })).toEqual([]);
});

test('only lines that are seen are answered', async () => {
  const seen = { start: { line: 9, character: 0 }, end: { line: 12, character: 0 } };
  const lines = (await hintsOf(ROOM_TEXT, ALL_KINDS, seen)).map(({ position }) => position.line);
  expect(lines.length).toBeGreaterThan(0);
  expect(lines.every((line) => 9 <= line && line <= 12)).toBe(true);
});

describe('a half-typed line', () => {
  test('keeps the hints of the lines above it on their own lines', async () => {
    const broken = ROOM_TEXT.replace('sub: { item: plover_a,', 'sub: { item: plover_a, at: { x:');
    expect(await hintBeside(broken, 'left: { gear')).toEqual(['1.40 m · 4.06 ms', ' · L 30.0°']);
  });

  test('a hint never stands on a line that it does not belong to', async () => {
    const lines = ROOM_TEXT.split('\n');
    for (let cut = 1; cut < lines.length; cut += 1) {
      const half = [...lines.slice(0, cut), (lines[cut] ?? '').slice(0, 9)].join('\n');
      for (const { text, line } of await hintsOf(half)) {
        if (text.includes('m³')) expect(line).toContain('size');
        if (/^[LR] \d/.test(text)) expect(line).toMatch(/^ {2}(left|right):/);
      }
    }
  });
});

test('over the demo files no line has more than an editor shows', async () => {
  const folder = new URL('../../../examples/rooms/', import.meta.url).pathname;
  const session = createSession(
    nodeFiles,
    () => TODAY,
    null,
    fieldAtOnce(() => undefined),
  );
  let lineCount = 0;
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.room.yaml'))) {
    const analysis = await session.whole(fileUri(folder + name));
    if (analysis === null) throw new RangeError(`${name} was not read`);
    const widths = new Map<number, number>();
    for (const { position, label } of inlayHints(analysis, EVERYTHING, ALL_KINDS))
      widths.set(position.line, (widths.get(position.line) ?? 0) + labelText(label).length);
    lineCount += widths.size;
    const text = readFileSync(folder + name, 'utf8').split('\n');
    for (const [line, width] of widths)
      expect(width, `${name}:${line + 1} ${text[line]}`).toBeLessThanOrEqual(LONGEST_LINE);
  }
  expect(lineCount).toBeGreaterThan(60);
});
