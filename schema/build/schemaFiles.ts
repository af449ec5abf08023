// Reads the schemas from disk, by file name.

import { readFileSync } from 'node:fs';

export type SchemaFiles = ReadonlyMap<string, Record<string, unknown>>;

export const SCHEMA_NAMES = [
  'room.schema.json',
  'gear.schema.json',
  'facility.schema.json',
  'settings.schema.json',
  'shared.schema.json',
  'quantities.schema.json',
] as const;

export function readSchemaFiles(): SchemaFiles {
  return new Map(
    SCHEMA_NAMES.map((name) => {
      const text = readFileSync(new URL(`../${name}`, import.meta.url), 'utf8');
      return [name, JSON.parse(text) as Record<string, unknown>];
    }),
  );
}
