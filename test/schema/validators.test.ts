// The compiled validators, shortened as they are, find exactly what Ajv itself finds with the same schemas.

import { readFileSync } from 'node:fs';
import type { ErrorObject } from 'ajv';
import fc from 'fast-check';
import { glob } from 'tinyglobby';
import { describe, expect, test } from 'vitest';
import { parseDocument } from 'yaml';
import { createAjv } from '../../schema/build/ajv.ts';
import { readSchemaFiles } from '../../schema/build/schemaFiles.ts';
import { type SchemaError, validators } from '../../schema/validators.generated.js';

const ROOT = new URL('../../', import.meta.url);
const ajv = createAjv(readSchemaFiles());
const KINDS = ['room', 'gear', 'facility'] as const;
/** Of other keywords only that they were found is kept. */
const WITH_PARAMS =
  /^(required|additionalProperties|propertyNames|dependentRequired|uniqueItems|oneOf|discriminator)$/;

function told(errors: readonly (ErrorObject | SchemaError)[] | null | undefined): unknown {
  return (errors ?? []).map(({ instancePath, keyword, params, propertyName }) => ({
    instancePath,
    keyword,
    params: WITH_PARAMS.test(keyword) ? params : {},
    propertyName,
  }));
}

/** Both answers, of each key's own validator. @returns how many faults there were */
function compare(kind: (typeof KINDS)[number], data: Readonly<Record<string, unknown>>): number {
  let count = 0;
  for (const [key, value] of Object.entries(data)) {
    const compiled = validators[kind].keys[key];
    const own = ajv.getSchema(`${kind}.schema.json#/properties/${key}`);
    if (compiled === undefined || own === undefined) continue;
    own(value);
    compiled(value);
    expect(told(compiled.errors), `${kind} ${key}`).toEqual(told(own.errors));
    count += own.errors?.length ?? 0;
  }
  return count;
}

const files = await glob(['examples/**/*.yaml'], { cwd: ROOT.pathname });
const examples = files.map((file) => {
  const text = readFileSync(new URL(file, ROOT), 'utf8');
  const data = parseDocument(text, { schema: 'failsafe' }).toJS() as Record<string, unknown>;
  return { file, data, kind: KINDS.find((kind) => kind in data) ?? 'room' };
});

describe.each(examples)('$file', ({ kind, data }) => {
  test('as it is', () => {
    expect(Object.keys(data).length).toBeGreaterThan(1);
    compare(kind, data);
  });

  test('with a value of it replaced, a key renamed, or one left out', () => {
    const places = placesIn(data);
    const values = [{}, [], '', 'unknown', 'x', '5 m', '-3 dB', 7, -1, true, null, ['a', 'a']];
    const change = fc.record({
      at: fc.nat(places.length - 1),
      how: fc.constantFrom('replace', 'rename', 'remove'),
      value: fc.constantFrom(...values),
    });
    let faults = 0;
    fc.assert(
      fc.property(change, ({ at, how, value }) => {
        const place = places[at] ?? [];
        faults += compare(kind, changed(data, place, how, value) as Record<string, unknown>);
      }),
      { seed: 20261125, numRuns: 150 },
    );
    expect(faults).toBeGreaterThan(20);
  });
});

function placesIn(data: unknown, path: readonly string[] = []): readonly (readonly string[])[] {
  if (typeof data !== 'object' || data === null) return [path];
  const inner = Object.entries(data).flatMap(([key, value]) => placesIn(value, [...path, key]));
  return path.length === 0 ? inner : [path, ...inner];
}

function changed(data: unknown, path: readonly string[], how: string, value: unknown): unknown {
  const [key, ...rest] = path;
  if (key === undefined) return value;
  if (Array.isArray(data))
    return data.map((item, i) => (String(i) === key ? changed(item, rest, how, value) : item));
  const entries = Object.entries(data as object).flatMap(([name, inner]): [string, unknown][] => {
    if (name !== key) return [[name, inner]];
    if (rest.length === 0 && how === 'remove') return [];
    if (rest.length === 0 && how === 'rename') return [['a~/b', inner]];
    return [[name, changed(inner, rest, how, value)]];
  });
  return Object.fromEntries(entries);
}
