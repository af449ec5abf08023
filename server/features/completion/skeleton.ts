// A skeleton: the smallest text that a schema takes, with a field for each value, as a snippet.

import { quantityRule, wordsAt } from '../../../schema/describe.ts';
import type { ResolvedSchema } from '../../../schema/resolveSchemas.ts';

/** Counts the fields of one snippet. */
export interface Fields {
  next: number;
}

/** The value as a flow map, list or scalar; empty where the schema says nothing about it. */
export function skeleton(schema: ResolvedSchema, fields: Fields): string {
  if (takesMap(schema)) {
    const keys = neededKeys(schema);
    if (keys.length === 0) return `{ ${field(fields, '')} }`;
    const entries = keys.map((key) => {
      const inner = schema.properties?.[key];
      return `${key}: ${inner ? skeleton(inner, fields) : field(fields, '')}`;
    });
    return `{ ${entries.join(', ')} }`;
  }
  if (schema.type === 'array') return `[${field(fields, '')}]`;
  return field(fields, exampleText(schema));
}

/** What is required, and the first choice where one of several is. */
export function neededKeys(schema: ResolvedSchema): readonly string[] {
  const branch = schema.oneOf?.[0];
  const chosen = branch?.required ?? [];
  const tag = schema.discriminator?.propertyName;
  return [...new Set([...(tag === undefined ? chosen : [tag]), ...(schema.required ?? [])])];
}

export function takesMap(schema: ResolvedSchema): boolean {
  const types = Array.isArray(schema.type) ? schema.type : [schema.type];
  return types.includes('object') || (schema.properties !== undefined && schema.type === undefined);
}

/** Text of an example that can stand anywhere: a quantity or a word of a closed list, never somebody's name. */
function exampleText(schema: ResolvedSchema): string {
  const [example] = schema.examples ?? [];
  if (quantityRule(schema) !== null && typeof example === 'string') return example;
  if (schema.const !== undefined) return String(schema.const);
  const [word] = wordsAt(schema);
  return schema.enum !== undefined && word !== undefined ? word : '';
}

function field(fields: Fields, text: string): string {
  const number = fields.next;
  fields.next += 1;
  return text === '' ? `$${number}` : `\${${number}:${text.replace(/[$}\\]/g, '\\$&')}}`;
}
