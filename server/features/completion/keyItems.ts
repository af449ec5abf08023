// Keys that may stand in the map under the cursor: from the schema, from names of the room, or a new name.

import { CompletionItemKind } from 'vscode-languageserver';
import type { Place } from '../../../schema/describe.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { ResolvedSchema } from '../../../schema/resolveSchemas.ts';
import type { Analysis } from '../../analysis.ts';
import { keyMarkdown } from '../../words/keyWords.ts';
import type { CursorContext } from './cursorContext.ts';
import { type Item, valueItem } from './item.ts';
import { namesFor } from './namesFor.ts';
import { neededKeys, skeleton, takesMap } from './skeleton.ts';

export function keyItems(
  analysis: Analysis,
  context: CursorContext,
  { schema, overlay }: Place,
  present: ReadonlySet<string>,
  takesSnippets: boolean,
): readonly Item[] {
  if (!takesMap(schema)) return [];
  const needed = new Set(overlay ? [] : neededKeys(schema));
  const write = writer(context, takesSnippets);
  const known = Object.entries(schema.properties ?? {})
    .filter(([key]) => !present.has(key))
    .map(([key, inner]) =>
      valueItem(key, CompletionItemKind.Property, {
        ...write(key, inner),
        rank: needed.has(key) ? 0 : key === 'note' ? 3 : 1,
        detail: needed.has(key) ? 'required' : null,
        documentation: keyMarkdown(inner),
      }),
    );
  const values =
    typeof schema.additionalProperties === 'object' ? schema.additionalProperties : null;
  if (values === null) return known;
  const named = namedKeys(analysis, context.path, schema)
    .filter(({ label }) => !present.has(label))
    .map((item) => ({ ...item, ...write(item.label, values), rank: 1 }));
  return [...known, ...named, ...newEntry(schema, values, context, takesSnippets)];
}

type Writing = Pick<Item, 'text' | 'isSnippet' | 'asksAgain'>;

/** How a key is written: alone where its colon stands already, else with what its value starts with. */
function writer(
  { hasColon, inFlow, indent }: CursorContext,
  takesSnippets: boolean,
): (key: string, value: ResolvedSchema) => Writing {
  return (key, value) => {
    if (hasColon) return { text: key, isSnippet: false, asksAgain: false };
    if (!takesSnippets) return { text: `${key}: `, isSnippet: false, asksAgain: true };
    if (takesMap(value) && value.words === undefined) {
      // Maps of named things and of many keys go over lines; small records with needed keys stay on one.
      const small = 0 < neededKeys(value).length || inFlow;
      const start = small ? ` ${skeleton(value, { next: 1 })}` : `\n${' '.repeat(indent + 2)}$0`;
      return { text: `${key}:${start}`, isSnippet: true, asksAgain: !small };
    }
    if (value.type === 'array')
      return {
        text:
          inFlow || value.items?.arrow === undefined
            ? `${key}: [$0]`
            : `${key}:\n${' '.repeat(indent + 2)}- $0`,
        isSnippet: true,
        asksAgain: true,
      };
    return { text: `${key}: $0`, isSnippet: true, asksAgain: true };
  };
}

/** Keys that refer to something: devices under `settings`, surfaces, ports, bands of a spectrum. */
function namedKeys(analysis: Analysis, path: Path, schema: ResolvedSchema): readonly Item[] {
  if (schema.keyReference !== undefined) return namesFor(schema.keyReference, analysis, path);
  if (schema.propertyNames?.quantity === 'frequency')
    return OCTAVES.map((label) => valueItem(label, CompletionItemKind.Unit));
  return [];
}

/** Octave bands, as decay times and absorption are told. */
const OCTAVES = [
  '31.5 Hz',
  '63 Hz',
  '125 Hz',
  '250 Hz',
  '500 Hz',
  '1 kHz',
  '2 kHz',
  '4 kHz',
  '8 kHz',
];

/** A thing of a new name, with all that it needs. */
function newEntry(
  { defines }: ResolvedSchema,
  value: ResolvedSchema,
  { hasColon }: CursorContext,
  takesSnippets: boolean,
): readonly Item[] {
  if (defines === undefined || hasColon || !takesSnippets) return [];
  const fields = { next: 2 };
  const rest = takesMap(value) ? skeleton(value, fields) : '$0';
  return [
    valueItem(`new ${defines.replaceAll('_', ' ')}`, CompletionItemKind.Snippet, {
      text: `\${1:${defines === 'gear' ? 'model' : defines}_1}: ${rest}`,
      isSnippet: true,
      detail: 'with all that it needs',
      documentation: value.description ?? null,
      filter: defines,
      rank: 0,
    }),
  ];
}
