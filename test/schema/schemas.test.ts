// The schemas: valid, consistent, said in words everywhere; what is made of them is fresh.

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { createAjv } from '../../schema/build/ajv.ts';
import { generated } from '../../schema/build/generated.ts';
import { readSchemaFiles } from '../../schema/build/schemaFiles.ts';
import { isDay } from '../../schema/calendar.ts';
import {
  allowsUnknown,
  quantityRule,
  referenceKinds,
  rootSchema,
  schemaAt,
  wordsAt,
} from '../../schema/describe.ts';
import { exampleText } from '../../schema/exampleText.ts';
import { kindOf } from '../../schema/kindOf.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { toPlain } from '../../schema/plain.ts';
import type { ResolvedSchema } from '../../schema/resolveSchemas.ts';
import { FACILITY, ROOM } from './examples.ts';

const files = readSchemaFiles();

test('what is made of the schemas is fresh (npx tsx schema/build/generate.ts)', async () => {
  const made = await generated();
  expect(made.size).toBeGreaterThan(3);
  for (const [path, text] of made) {
    expect(readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8'), path).toBe(text);
  }
});

test('the compiled validators need no compiler and no module loader', () => {
  const code = readFileSync(
    new URL('../../schema/validators.generated.js', import.meta.url),
    'utf8',
  );
  expect(code).not.toMatch(/\brequire\(|new Function|\beval\(/);
});

/** Every schema of a file with its place. */
function* schemasIn(
  schema: unknown,
  place: string,
): Generator<{ place: string; schema: Record<string, unknown> }> {
  if (typeof schema !== 'object' || schema === null || Array.isArray(schema)) return;
  const record = schema as Record<string, unknown>;
  yield { place, schema: record };
  for (const key of ['properties', '$defs']) {
    for (const [name, inner] of Object.entries((record[key] ?? {}) as object))
      yield* schemasIn(inner, `${place}/${key}/${name}`);
  }
  for (const key of ['additionalProperties', 'items'])
    yield* schemasIn(record[key], `${place}/${key}`);
}

describe.each([...files])('%s', (name, file) => {
  const all = [...schemasIn(file, name)];

  test('is a valid schema in strict mode', () => {
    expect(createAjv(files).validateSchema(file)).toBe(true);
  });

  test('says in words what everything is', () => {
    const silent = all.filter(
      ({ schema }) => schema.$ref === undefined && typeof schema.description !== 'string',
    );
    expect(
      silent.map(({ place }) => place).filter((place) => !place.endsWith('schema.json')),
    ).toEqual([]);
  });

  test("keeps keys of people's own, and takes a note, in every record", () => {
    const records = all.filter(
      ({ schema }) =>
        typeof schema.properties === 'object' && schema.additionalProperties !== undefined,
    );
    for (const { place, schema } of records) {
      expect(schema.patternProperties, place).toEqual({ '^x_': true });
      expect(Object.keys(schema.properties as object), place).toContain('note');
    }
  });

  test('has examples that it takes itself', () => {
    const ajv = createAjv(files);
    let count = 0;
    for (const { place, schema } of all) {
      const pointer = place.slice(name.length);
      const validate =
        ajv.getSchema(`${name}#${pointer}`) ?? ajv.compile({ $ref: `${name}#${pointer}` });
      for (const example of (schema.examples ?? []) as readonly unknown[]) {
        count++;
        expect(
          validate(example),
          `${place}: ${JSON.stringify(example)} ${JSON.stringify(validate.errors)}`,
        ).toBe(true);
        expect(exampleText(example)).not.toContain('undefined');
      }
    }
    expect(count).toBeGreaterThan(3);
  });
});

describe('what applies at a path', () => {
  const at = (path: string, kind: 'room' | 'gear' | 'facility' = 'room') =>
    schemaAt(kind, path.split('/'));

  test.each([
    ['space/size/width', 'length'],
    ['seats/mix/at/x', 'length'],
    ['settings/sub/crossover/frequency', 'frequency'],
    ['settings/sub/ports/driver/eq/band_1/gain', 'gain'],
    ['sessions/autumn/takes/a/at/z', 'length'],
    ['alternatives/a/change/subwoofers/sub/at/x', 'length'],
    ['space/fixtures/desk/z/0', 'length'],
  ])('%s takes a %s', (path, dimension) => {
    const place = at(path);
    expect(place && quantityRule(place.schema)?.quantity).toBe(dimension);
    expect(place?.schema.description).toMatch(/\w{4}/);
  });

  test.each([
    ['speakers/left/gear', ['gear']],
    ['speakers/left/aim', ['seat']],
    ['circuits/tech/feeds/0', ['gear_user']],
    ['space/fixtures/p/wall', ['wall']],
    ['targets/layout', ['layout']],
    ['sessions/s/takes/t/file', ['file']],
  ])('%s refers to %j', (path, kinds) => {
    expect(referenceKinds(at(path)?.schema ?? {})).toEqual(kinds);
  });

  test('words', () => {
    expect(wordsAt(at('settings/sub/polarity')?.schema ?? {})).toEqual([
      'normal',
      'inverted',
      'unknown',
    ]);
    expect(wordsAt(at('settings/sub/crossover')?.schema ?? {})).toEqual(['bypass', 'unknown']);
    expect(wordsAt(at('settings/sub/standby')?.schema ?? {})).toEqual(['off', 'on', 'unknown']);
    expect(allowsUnknown(at('seats')?.schema ?? {})).toBe(false);
  });

  test('a tag chooses the shape, where the file is at hand', () => {
    const { root } = parseFile('room', ROOM);
    const keys = (id: string) =>
      Object.keys(schemaAt('room', ['space', 'fixtures', id], root)?.schema.properties ?? {});
    expect(keys('panel_1')).toContain('along');
    expect(keys('desk')).not.toContain('along');
    expect(Object.keys(at('space/fixtures/any')?.schema.properties ?? {})).toEqual(
      expect.arrayContaining(['x', 'along', 'because']),
    );
  });

  test('nothing where the format knows nothing', () => {
    expect(at('speakers/left/colour')).toBeNull();
    expect(at('x_own/anything')).toBeNull();
    expect(at('seats/mix/constructor')).toBeNull();
  });

  test('in an alternative', () => {
    expect(at('alternatives/a/change')?.overlay).toBe(true);
    expect(at('alternatives/a/change/sessions')).toBeNull();
  });
});

test('the namespaces that ids are given in', () => {
  const defined = (schema: ResolvedSchema, kinds: string[] = []): readonly string[] => {
    if (schema.defines !== undefined) kinds.push(schema.defines);
    for (const inner of Object.values(schema.properties ?? {})) defined(inner, kinds);
    if (typeof schema.additionalProperties === 'object')
      defined(schema.additionalProperties, kinds);
    return kinds;
  };
  const all = new Set([
    ...defined(rootSchema('room')),
    ...defined(rootSchema('gear')),
    ...defined(rootSchema('facility')),
  ]);
  for (const kind of [
    'seat',
    'speaker',
    'subwoofer',
    'device',
    'wall',
    'fixture',
    'set',
    'session',
    'take',
    'gear',
    'item',
    'policy',
    'control',
    'bus',
  ]) {
    expect([...all]).toContain(kind);
  }
});

test('kinds of file by name', () => {
  expect(kindOf('rooms/heron.room.yaml')).toBe('room');
  expect(kindOf('C:\\x\\moor.gear.yaml')).toBe('gear');
  expect(kindOf('file:///a/facility.yaml')).toBe('facility');
  expect(kindOf('my-facility.yaml')).toBeNull();
  expect(kindOf('room.yaml')).toBeNull();
});

test('days', () => {
  // Gregorian rule: years by 100 are leap years by 400 only.
  for (const [day, real] of [
    ['2024-02-29', true],
    ['2023-02-29', false],
    ['1900-02-29', false],
    ['2000-02-29', true],
    ['2026-13-01', false],
    ['2026-04-31', false],
    ['2026-4-3', false],
    ['unknown', true],
  ] as const) {
    expect(isDay(day), day).toBe(real);
  }
});

describe('the plain object', () => {
  test('has what was written, in the types of the schema', () => {
    const room = toPlain('room', parseFile('room', ROOM));
    expect(room.room).toBe(1);
    expect(room.sessions?.autumn_2026).toMatchObject({ microphone: { serial: '00417' } });
    expect(room.space?.surfaces?.ceiling).toMatchObject({ absorption: { '63 Hz': 0.2 } });
    expect(room.targets?.curve).toEqual({ flat: true });
    expect(toPlain('facility', parseFile('facility', FACILITY)).items?.moor_a).toMatchObject({
      serial: '00417',
    });
  });

  test('leaves out what has an error', () => {
    const room = toPlain(
      'room',
      parseFile(
        'room',
        'room: 1\nspace: { size: { width: 4, depth: 5 m, height: 3 m }, colour: red }\n',
      ),
    );
    expect(room.space).toEqual({ size: { depth: '5 m', height: '3 m' } });
  });
});
