// Values that may stand under the cursor: words, names, units behind a number, what is computed.

import { CompletionItemKind } from 'vscode-languageserver';
import { quantityRule, referenceKinds, wordsAt } from '../../../schema/describe.ts';
import { dimensionsOf } from '../../../schema/quantity/read.ts';
import { unitsOf } from '../../../schema/quantity/units.ts';
import type { ResolvedSchema } from '../../../schema/resolveSchemas.ts';
import type { Analysis } from '../../analysis.ts';
import { samePath } from '../../names.ts';
import { arrowItems } from './arrowItems.ts';
import type { CursorContext } from './cursorContext.ts';
import { fileItems } from './fileItems.ts';
import { type Item, valueItem } from './item.ts';
import { namesFor } from './namesFor.ts';
import { neededKeys, skeleton, takesMap } from './skeleton.ts';

export function valueItems(
  analysis: Analysis,
  context: CursorContext,
  schema: ResolvedSchema,
  { takesSnippets, files }: { readonly takesSnippets: boolean; readonly files: readonly string[] },
): readonly Item[] {
  const { path, typed } = context;
  if (schema.arrow !== undefined) return arrowItems(analysis, path, schema.arrow, typed);
  const rule = quantityRule(schema);
  if (rule !== null && /^[-+.\d]/.test(typed)) return unitItems(schema, typed);
  return [
    ...computed(analysis, context),
    ...referenceKinds(schema).flatMap((kind) =>
      kind === 'file' ? fileItems(files, analysis) : namesFor(kind, analysis, path),
    ),
    ...wordsAt(schema).map((word) =>
      valueItem(word, CompletionItemKind.EnumMember, { rank: word === 'unknown' ? 3 : 1 }),
    ),
    ...(schema.type === 'boolean' ? ['true', 'false'] : []).map((word) =>
      valueItem(word, CompletionItemKind.Keyword),
    ),
    ...examples(schema),
    ...(typed === '' && takesSnippets ? record(schema) : []),
  ];
}

/** `4.62` → `4.62 m`, `4.62 mm` …: the unit that the dimension offers first stands first. */
function unitItems(schema: ResolvedSchema, typed: string): readonly Item[] {
  const number = /^([-+]?\d+(?:\.\d+)?)\s*[^\d\s.,±]*$/.exec(typed)?.[1];
  const rule = quantityRule(schema);
  if (number === undefined || rule === null) return [];
  const units = dimensionsOf(rule).flatMap((dimension) => unitsOf(dimension));
  const singular = units.filter(({ symbol }) => /^[^\s'"]+$/.test(symbol));
  return singular.map(({ symbol, dimension, close }, index) =>
    valueItem(symbol, CompletionItemKind.Unit, {
      text: close ? `${number}${symbol}` : `${number} ${symbol}`,
      filter: typed.replace(/[^\d]*$/, '') + (/\d\s+\S*$/.test(typed) ? ` ${symbol}` : symbol),
      detail: dimension.replaceAll('_', ' '),
      rank: index === 0 ? 0 : 1,
    }),
  );
}

function computed({ setup }: Analysis, { path }: CursorContext): readonly Item[] {
  return (setup?.advice ?? [])
    .filter((advice) => samePath(advice.path, path) && !/[{,:#]/.test(advice.dialIn))
    .map(({ dialIn, reason }) =>
      valueItem(dialIn, CompletionItemKind.Value, {
        detail: 'computed',
        documentation: reason,
        rank: 0,
      }),
    );
}

/** Quantities show what one looks like. */
function examples(schema: ResolvedSchema): readonly Item[] {
  if (quantityRule(schema) === null) return [];
  return (schema.examples ?? [])
    .filter((example) => typeof example === 'string')
    .map((example) => valueItem(example, CompletionItemKind.Value, { detail: 'example', rank: 2 }));
}

function record(schema: ResolvedSchema): readonly Item[] {
  if (!takesMap(schema) || neededKeys(schema).length === 0) return [];
  return [
    valueItem(`{ ${neededKeys(schema).join(', ')} }`, CompletionItemKind.Struct, {
      text: skeleton(schema, { next: 1 }),
      isSnippet: true,
      rank: 0,
    }),
  ];
}
