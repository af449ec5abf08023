// An Ajv that knows our keywords, in strict mode, for the compiled validators and for tests of the schemas.

import { _, type CodeKeywordDefinition, type KeywordCxt, stringify } from 'ajv';
import { Ajv2020 } from 'ajv/dist/2020.js';
import { isArrow } from '../arrow.ts';
import { isDay } from '../calendar.ts';
import { fitsQuantity } from '../quantity/fits.ts';
import type { SchemaFiles } from './schemaFiles.ts';

/** Our keywords that tell readers something and validators nothing. */
const ANNOTATIONS = [
  'typical',
  'reference',
  'keyReference',
  'defines',
  'definesItems',
  'prose',
  'fingerprint',
  'overlay',
  'least',
  'above',
  'most',
  'key',
];

/** Those of them that `quantity` reads. */
const BOUNDS = ['least', 'above', 'most', 'key'];

const QUANTITY: CodeKeywordDefinition = {
  keyword: 'quantity',
  type: 'string',
  schemaType: ['string', 'array'],
  error: { message: 'must be a quantity' },
  code(cxt: KeywordCxt): void {
    const { quantity, words, least, above, most, key } = cxt.parentSchema;
    const rule = { quantity, words, least, above, most, key };
    const check = cxt.gen.scopeValue('func', { ref: fitsQuantity, code: _`fitsQuantity` });
    const ruleName = cxt.gen.scopeValue('schema', { ref: rule, code: stringify(rule) });
    cxt.fail(_`!${check}(${cxt.data}, ${ruleName})`);
  },
};

/** Words in place of a map; where there is a quantity too, `quantity` looks at them. */
const WORDS: CodeKeywordDefinition = {
  keyword: 'words',
  type: 'string',
  schemaType: 'array',
  error: { message: 'must be one of the words' },
  code(cxt: KeywordCxt): void {
    if (cxt.parentSchema.quantity !== undefined) return;
    const words: unknown[] = [...cxt.schema, 'unknown'];
    const list = cxt.gen.scopeValue('schema', { ref: words, code: stringify(words) });
    cxt.fail(_`!${list}.includes(${cxt.data})`);
  },
};

const ARROW: CodeKeywordDefinition = {
  keyword: 'arrow',
  type: 'string',
  schemaType: 'string',
  error: { message: 'must be an arrow' },
  code(cxt: KeywordCxt): void {
    const check = cxt.gen.scopeValue('func', { ref: isArrow, code: _`isArrow` });
    cxt.fail(_`!${check}(${cxt.data}, ${cxt.schema})`);
  },
};

/** The schemas are known to it by file name. */
export function createAjv(files: SchemaFiles): Ajv2020 {
  const ajv = new Ajv2020({
    allErrors: true,
    discriminator: true,
    strict: true,
    allowUnionTypes: true,
    // `required` names keys of `properties` outside a `oneOf`, and `type` stands outside it too.
    strictRequired: false,
    strictTypes: false,
    messages: false,
    // One function a definition: a definition that is used in forty places is not compiled forty times.
    inlineRefs: false,
    code: { esm: true, source: true, formats: _`formats` },
    formats: { date: isDay },
  });
  // Draft 2020-12 turns these on; no schema of ours uses them, and they are a third of the code.
  Object.assign(ajv.opts, { unevaluated: false, dynamicRef: false });
  ajv.addVocabulary(ANNOTATIONS);
  for (const keyword of [QUANTITY, WORDS, ARROW]) ajv.addKeyword(keyword);
  for (const [name, schema] of files) ajv.addSchema({ ...withoutWords(schema), $id: name });
  return ajv;
}

/** The schema without what only people read, since all of it would end in the compiled code. */
function withoutWords<T>(schema: T): T {
  if (Array.isArray(schema)) return schema.map(withoutWords) as T;
  if (typeof schema !== 'object' || schema === null) return schema;
  const kept = Object.entries(schema).flatMap(([key, value]) => {
    if (key === 'properties' || key === '$defs') {
      const inner = Object.entries(value).map(([name, one]) => [name, withoutWords(one)]);
      return [[key, Object.fromEntries(inner)]];
    }
    const silent = ['description', 'examples', 'title', ...ANNOTATIONS].includes(key);
    return silent && !BOUNDS.includes(key) ? [] : [[key, withoutWords(value)]];
  });
  return Object.fromEntries(kept);
}
