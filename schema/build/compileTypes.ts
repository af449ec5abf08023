// Makes TypeScript types of the schemas.

import { compile } from 'json-schema-to-typescript';
import { readSchemaFiles } from './schemaFiles.ts';

const HEADER =
  '// The types of the three kinds of file. Made by: npx tsx schema/build/generate.ts\n';

/** @returns the text of the generated module */
export async function compileTypes(): Promise<string> {
  const files = readSchemaFiles();
  const definitions: Record<string, unknown> = {};
  for (const [name, schema] of files) {
    const { $defs, ...whole } = schema;
    const stem = name.replace('.schema.json', '');
    for (const [key, inner] of Object.entries(($defs ?? {}) as object)) {
      definitions[definitionName(stem, key)] = typed(inner, stem);
    }
    if (['room', 'gear', 'facility', 'settings'].includes(stem)) {
      definitions[stem === 'settings' ? 'Settings' : `${pascal(stem)}File`] = typed(whole, stem);
    }
  }
  const text = await compile(
    {
      title: 'AnyFile',
      oneOf: ['RoomFile', 'GearFile', 'FacilityFile'].map((name) => ({ $ref: `#/$defs/${name}` })),
      $defs: definitions,
    },
    'AnyFile',
    {
      bannerComment: HEADER,
      additionalProperties: false,
      unreachableDefinitions: false,
      style: { singleQuote: true, printWidth: 100 },
      format: true,
    },
  );
  return text.replace(/^export type AnyFile.*$/m, (line) => line);
}

/** `room#/$defs/space` → RoomSpace is avoided: names are unique over all files, which is checked by the tests. */
function definitionName(stem: string, key: string): string {
  return stem === 'quantities' || stem === 'shared' ? pascal(key) : pascal(key);
}

function pascal(name: string): string {
  return name.replace(/(^|_)([a-z])/g, (_, __, letter: string) => letter.toUpperCase());
}

/** Keeps what makes a type, and the description; drops bounds, unions by tag key, and what stands beside a `$ref`. */
function typed(schema: unknown, stem: string): unknown {
  if (Array.isArray(schema)) return schema.map((item) => typed(item, stem));
  if (typeof schema !== 'object' || schema === null) return schema;
  const record = schema as Record<string, unknown>;
  if (typeof record.$ref === 'string') return { $ref: localReference(record.$ref, stem) };
  const kept: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(record)) {
    if (key === 'properties') {
      kept.properties = Object.fromEntries(
        Object.entries(value as object).map(([name, inner]) => [name, typed(inner, stem)]),
      );
    } else if (key === 'oneOf' && 'discriminator' in record) {
      kept.oneOf = typed(value, stem);
    } else if (['additionalProperties', 'items'].includes(key)) {
      kept[key] = typed(value, stem);
    } else if (['type', 'enum', 'const', 'required', 'description'].includes(key)) {
      kept[key] = value;
    }
  }
  if ('oneOf' in kept) {
    delete kept.type;
    delete kept.required;
  }
  if (record.overlay === true)
    return { tsType: 'Record<string, unknown>', description: record.description };
  return kept;
}

function localReference(reference: string, stem: string): string {
  const [file = '', pointer = ''] = reference.split('#');
  const target = file === '' ? stem : file.replace('.schema.json', '');
  const name = pointer.split('/').at(-1);
  return `#/$defs/${name ? definitionName(target, name) : 'Settings'}`;
}
