// Compiles the schemas into validators that need no compiler, and no eval, at run time.

import standalone from 'ajv/dist/standalone/index.js';
import { createAjv } from './ajv.ts';
import { readSchemaFiles, type SchemaFiles } from './schemaFiles.ts';
import { shorter } from './shorter.ts';

const KINDS = ['room', 'gear', 'facility'] as const;

const HEADER = `// The schemas, compiled into validators. Made by: npx tsx schema/build/generate.ts
/* eslint-disable */
import { isArrow } from './arrow.ts';
import { isDay } from './calendar.ts';
import { fitsQuantity } from './quantity/fits.ts';
import { inside, isMap, sameScalar, sizeOf, step, textLength, told } from './validatorHelp.ts';
const formats = { date: isDay };
`;

const DECLARATIONS = `// The schemas, compiled into validators. Made by: npx tsx schema/build/generate.ts

/** One fault of some data, in the validator's own terms; \`parse/shape.ts\` puts it into the format's words. */
export interface SchemaError {
  /** A JSON pointer to the value. */
  readonly instancePath: string;
  readonly keyword: string;
  /** Which key, item or branch, where the keyword alone does not say it; else empty. */
  readonly params: Readonly<Record<string, unknown>>;
  /** Where in the schema, where it matters; else empty. */
  readonly schemaPath: string;
  readonly propertyName?: string;
}

export interface Validator {
  (data: unknown): boolean;
  errors?: readonly SchemaError[] | null;
}

/** For each kind of file: one validator for its own keys, and one for each key's value. */
export const validators: Readonly<
  Record<'room' | 'gear' | 'facility', { readonly root: Validator; readonly keys: Readonly<Record<string, Validator>> }>
>;
`;

/** @returns the text of the generated module, and of its declarations */
export function compileValidators(): { readonly code: string; readonly declarations: string } {
  const files = readSchemaFiles();
  const ajv = createAjv(files);
  const refs: Record<string, string> = {};
  const table: string[] = [];
  for (const kind of KINDS) {
    const name = `${kind}.schema.json`;
    const properties = propertiesOf(files, name);
    ajv.addSchema(rootOnly(files, name), `${kind}.root`);
    refs[`${kind}_root`] = `${kind}.root`;
    for (const key of properties) refs[`${kind}_key_${key}`] = `${name}#/properties/${key}`;
    const keys = properties.map((key) => `${key}: ${kind}_key_${key}`).join(', ');
    table.push(`  ${kind}: { root: ${kind}_root, keys: { __proto__: null, ${keys} } },`);
  }
  const compiled = shorter(localImports(standalone(ajv, refs)));
  const code = `${HEADER}${compiled}\nexport const validators = {\n${table.join('\n')}\n};\n`;
  return { code, declarations: DECLARATIONS };
}

function propertiesOf(files: SchemaFiles, name: string): readonly string[] {
  return Object.keys((files.get(name)?.properties ?? {}) as object);
}

/** The file's own keys, with nothing said about their values: those have a validator each. */
function rootOnly(files: SchemaFiles, name: string): Record<string, unknown> {
  const { $defs: _, description: __, title: ___, ...schema } = files.get(name) ?? {};
  const properties = Object.fromEntries(propertiesOf(files, name).map((key) => [key, true]));
  return { ...schema, properties };
}

/** Ajv asks for its helpers by `require`, which a browser has not; ours say the same of the values that we have. */
function localImports(code: string): string {
  const local = code
    .replace('"use strict";', '')
    .replace(/^export const (\w+) = /gm, 'const $1 = ')
    .replace(/require\("ajv\/dist\/runtime\/ucs2length"\)\.default/g, 'textLength')
    .replace(/require\("ajv\/dist\/runtime\/equal"\)\.default/g, 'sameScalar');
  if (/\brequire\(/.test(local)) throw new Error('a `require` is left in the compiled validators');
  return local;
}
