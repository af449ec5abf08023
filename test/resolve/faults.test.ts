// Faults put into sound rooms one at a time: each is told once, at its place, and takes down nothing but itself.

import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { Located, LocatedScalar } from '../../schema/model/located.ts';
import type { Path } from '../../schema/model/path.ts';
import type { ResolveContext } from '../../schema/model/resolved.ts';
import type { Room } from '../../schema/model/room.ts';
import { createParser, parseFile } from '../../schema/parse/parseFile.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';
import { named } from './small.ts';

const examples = new URL('../../examples/', import.meta.url);
const read = (name: string) => readFileSync(new URL(name, examples), 'utf8');

const context: ResolveContext = {
  gear: readdirSync(new URL('gear/', examples))
    .filter((name) => name.endsWith('.gear.yaml'))
    .map((name) => named(name, 'gear', read(`gear/${name}`))),
  facility: named('facility.yaml', 'facility', read('facility.yaml')),
  defaultSampleRate_hz: null,
  fileExists: null,
};

interface Leaf {
  readonly path: Path;
  readonly scalar: LocatedScalar;
}

function leaves(value: Located | null, path: Path): readonly Leaf[] {
  if (value === null) return [];
  if (value.kind === 'scalar') return [{ path, scalar: value }];
  if (value.kind === 'list')
    return value.items.flatMap((item, index) => leaves(item, [...path, String(index)]));
  return [...value.entries].flatMap(([key, entry]) => leaves(entry.value, [...path, key]));
}

/** Quantities in the parts that make figures. */
function quantities(text: string): readonly Leaf[] {
  const figures = ['space', 'seats', 'speakers', 'subwoofers', 'circuits', 'settings'];
  return leaves(parseFile('room', text).root, []).filter(
    ({ path: [part = ''], scalar }) => figures.includes(part) && /^-?[\d.]+ ?\D/.test(scalar.text),
  );
}

describe.each(['heron', 'kestrel', 'wren'])('%s', (name) => {
  const text = read(`rooms/${name}.room.yaml`);
  const parser = createParser('room');
  const sound = resolveRoom(parser.parse(text), context);

  test('one value of another dimension: one problem, at it; every other figure stays', () => {
    const tried = quantities(text);
    expect(tried.length).toBeGreaterThan(50);
    for (const { path, scalar } of tried) {
      const broken = `${text.slice(0, scalar.range.start)}7 kg${text.slice(scalar.range.end)}`;
      const parsed = parser.parse(broken);
      const resolved = resolveRoom(parsed, context);
      const problems = [...parsed.problems, ...resolved.problems];
      const where = path.join('.');
      expect(
        problems.map(({ path: at }) => at.join('.')),
        where,
      ).toEqual([where]);
      const range = problems[0]?.range;
      expect(scalar.range.start, where).toBeLessThanOrEqual(range?.start ?? -1);
      expect(range?.end, where).toBe(scalar.range.start + '7 kg'.length);
      expectOnlyOneLost(sound.room, resolved.room, path);
    }
  });

  test('one word that names nothing: one problem, at it', () => {
    // A finding's code and a file are not looked up here; a channel of a network port is any number.
    const words = sound.references.filter(({ kind }) => kind !== 'finding' && kind !== 'file');
    expect(words.length).toBeGreaterThan(30);
    for (const { range, path } of words) {
      const broken = `${text.slice(0, range.start)}zzzzz${text.slice(range.end)}`;
      const parsed = parser.parse(broken);
      const problems = [...parsed.problems, ...resolveRoom(parsed, context).problems];
      const where = `${path.join('.')} ${text.slice(range.start, range.end)}`;
      expect(
        problems.map((problem) => problem.range),
        where,
      ).toEqual([{ start: range.start, end: range.start + 'zzzzz'.length }]);
    }
  });

  test('several faults at once: each once', () => {
    const tried = quantities(text).filter((_, index) => index % 9 === 0);
    let broken = text;
    for (const { scalar } of tried.toReversed())
      broken = `${broken.slice(0, scalar.range.start)}7 kg${broken.slice(scalar.range.end)}`;
    const parsed = parser.parse(broken);
    const problems = [...parsed.problems, ...resolveRoom(parsed, context).problems];
    expect(problems.map(({ path }) => path.join('.')).toSorted()).toEqual(
      tried.map(({ path }) => path.join('.')).toSorted(),
    );
  });
});

/** The parts of a room that the fault is not in are as they were. */
function expectOnlyOneLost(before: Room, after: Room, [part, id]: Path): void {
  const but = <Thing extends { readonly id: string }>(things: readonly Thing[], section: string) =>
    things.filter((thing) => section !== part || thing.id !== id);
  for (const section of ['seats', 'speakers', 'subwoofers', 'circuits'] as const)
    expect(but<{ readonly id: string }>(after[section], section)).toEqual(
      but<{ readonly id: string }>(before[section], section),
    );
  if (part !== 'settings') expect(after.settings).toEqual(before.settings);
  else
    for (const { device, values } of before.settings)
      if (device !== id)
        expect(after.settings.find((other) => other.device === device)?.values).toEqual(values);
  if (part !== 'space') expect(after.space).toEqual(before.space);
  expect(after.wiring).toEqual(before.wiring);
}
