// What a candidate brings with it: once it is in the file, no rule complains of its settings, and the room comes to what was promised.

import { readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { placeSubwoofers } from '../../core/search/roomPlacement.ts';
import { allAtOnce } from '../../core/search/transferMap.ts';
import type { Setup } from '../../core/setup.ts';
import { showFor } from '../../core/show.ts';
import { withField } from '../../core/withField.ts';
import { createWorkOut } from '../../core/workOut.ts';
import { editText } from '../../schema/edit.ts';
import type { FileKind, ParsedFile } from '../../schema/model/parsedFile.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';
import { applied } from '../../server/edits.ts';
import { placementEdits } from '../../server/placementEdits.ts';

const EXAMPLES = new URL('../../examples/', import.meta.url);
const GEAR = readdirSync(new URL('gear/', EXAMPLES))
  .filter((file) => file.endsWith('.gear.yaml'))
  .map((file) => named('gear', `gear/${file}`));
const FACILITY = named('facility', 'facility.yaml');
const OPTIONS = { today: '2026-11-25', defaultTemperature_k: 293.15 };

function named(kind: FileKind, file: string) {
  return { file, parsed: parseFile(kind, textOf(file)) };
}

function textOf(file: string): string {
  return readFileSync(new URL(file, EXAMPLES), 'utf8');
}

function read(text: string): { readonly parsed: ParsedFile; readonly setup: Setup } {
  const parsed = parseFile('room', text);
  const context = { gear: GEAR, facility: FACILITY, defaultSampleRate_hz: 48000, fileExists: null };
  const { room } = resolveRoom(parsed, context);
  return { parsed, setup: createWorkOut()(room, OPTIONS) };
}

/** Applies every candidate for a sub; answers what is wrong with them. */
function faultsOf(text: string, sub: string, step_m: number): readonly string[] {
  const { parsed, setup } = read(text);
  const placement = allAtOnce(placeSubwoofers(setup, { subs: [sub], step_m }));
  expect(placement.candidates.length).toBeGreaterThan(0);
  const before = new Set(setup.findings.map(keyOf));
  return placement.candidates.flatMap((candidate, index) => {
    const edits = placementEdits(setup, placement, candidate, showFor(setup.room.habits));
    const texts = edits === null ? null : editText(parsed, edits);
    if (texts === null) return [`candidate ${index + 1} cannot be written`];
    const after = read(applied(parsed.text, texts)).setup;
    const set = candidate.dialIn.map(({ path }) => path.join('.'));
    const complaints = withField(after, { ...OPTIONS, envelope: false })
      .findings.filter(
        ({ code, path, severity }) =>
          severity !== 'hint' &&
          set.includes(path.join('.')) &&
          // About the place, not about what is dialled in there: the crossover asks for the polarity that it has.
          code !== 'field/polarity',
      )
      .filter((finding) => !before.has(keyOf(finding)) || !isKept(finding.path, edits ?? []))
      .map(({ code, path, message }) => `${index + 1}: ${code} at ${path.join('.')}: ${message}`);
    const again = allAtOnce(
      placeSubwoofers(after, { subs: [sub], step_m: 1, keepSettings: true, candidateCount: 1 }),
    ).current;
    const apart_db = Math.abs((again?.cost_db ?? 99) - candidate.cost_db);
    // Delays that mains have to hold are rounded to their own devices' steps afterwards: a tenth of a decibel or two.
    const promised = apart_db < 0.2 ? [] : [`${index + 1}: ${apart_db} dB from what was promised`];
    return [...complaints, ...promised];
  });
}

function keyOf({ code, path }: { readonly code: string; readonly path: readonly string[] }) {
  return `${code} ${path.join('.')}`;
}

/** Whether a setting stays as the file had it. */
function isKept(
  path: readonly string[],
  edits: readonly { readonly path: readonly string[] }[],
): boolean {
  return edits.every((edit) => edit.path.join('.') !== path.join('.'));
}

describe('in the demo rooms', () => {
  test.each([
    ['heron', 'sub'],
    ['dunlin', 'sub'],
    ['kestrel', 'sub_bass'],
    ['kestrel', 'sub_lfe'],
    ['osprey', 'sub_left'],
  ])('%s, %s', (room, sub) => {
    expect(faultsOf(textOf(`rooms/${room}.room.yaml`), sub, 0.2)).toEqual([]);
  });
});

test('no place beyond the reach of a cable that the file records', () => {
  const heron = textOf('rooms/heron.room.yaml');
  const text = `${heron}\ncables:\n  to_left: { from: sub.out_left, to: left.in, length: 2 m }\n`;
  const { setup } = read(text);
  const left = setup.room.speakers.find(({ id }) => id === 'left')?.at;
  const find = (of: Setup) => allAtOnce(placeSubwoofers(of, { subs: ['sub'], step_m: 0.2 }));
  const [near, all] = [find(setup), find(read(heron).setup)];
  expect(near.placeCount).toBeGreaterThan(10);
  expect(near.placeCount).toBeLessThan(all.placeCount);
  for (const { positions } of near.candidates) {
    const [at] = positions;
    const away_m = Math.hypot((at?.x_m ?? 9) - (left?.x_m ?? 0), (at?.y_m ?? 9) - (left?.y_m ?? 0));
    expect(away_m).toBeLessThanOrEqual(2);
  }
});

test('in a room of any size, wherever the sub stood and however it was set', () => {
  const heron = textOf('rooms/heron.room.yaml');
  const anyRoom = fc.record({
    depth_m: fc.integer({ min: 580, max: 800 }).map((cm) => cm / 100),
    delay: fc.integer({ min: 0, max: 200 }).map((steps) => steps / 20),
    polarity: fc.constantFrom('normal', 'inverted'),
    level: fc.integer({ min: -40, max: 8 }).map((steps) => steps / 4),
  });
  fc.assert(
    fc.property(anyRoom, ({ depth_m, delay, polarity, level }) => {
      const text = heron
        .replace(/depth: [\d.]+ m(?: ± \d+ mm)?/, `depth: ${depth_m} m`)
        .replace(/driver: \{ delay: [\d.]+ ms/, `driver: { delay: ${delay} ms`)
        .replace(
          /polarity: inverted\n {4}level: -?[\d.]+/,
          `polarity: ${polarity}\n    level: ${level}`,
        );
      expect(text).not.toBe(heron);
      expect(faultsOf(text, 'sub', 0.4)).toEqual([]);
    }),
    { numRuns: 8 },
  );
});
