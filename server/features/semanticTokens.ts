// Semantic tokens: names, references and quantities with their units, told apart where colours by grammar cannot.

import { type SemanticTokens, SemanticTokensBuilder } from 'vscode-languageserver';
import type { Located, Range } from '../../schema/model/located.ts';
import type { Analysis } from '../analysis.ts';
import { NAMING_MAPS } from '../names.ts';

/** In the protocol's own words, so that every colour theme knows them. */
export const TOKEN_TYPES: string[] = ['number', 'type', 'class', 'variable', 'enumMember'];
export const TOKEN_MODIFIERS: string[] = ['declaration'];

const NUMBER = 0;
const UNIT = 1;
const NAME = 2;
const REFERENCE = 3;
const CHOICE = 4;
const DECLARATION = 1;

interface Token {
  readonly start: number;
  readonly end: number;
  readonly type: number;
  readonly modifiers: number;
}

export function semanticTokens({ source: { text, parsed }, references }: Analysis): SemanticTokens {
  const starts = new Set(references.map(({ range }) => range.start));
  const tokens: Token[] = references.map(({ range, target }) => ({
    ...range,
    type: target === null ? CHOICE : REFERENCE,
    modifiers: 0,
  }));
  const inside = (range: Range): boolean =>
    tokens.some(({ start, end }) => range.start <= start && end <= range.end);
  walk(parsed.root, 0, (range, kind, plainText) => {
    if (starts.has(range.start) || inside(range)) return;
    if (kind === 'name') tokens.push({ ...range, type: NAME, modifiers: DECLARATION });
    else if (plainText !== null) tokens.push(...quantityTokens(range, plainText));
  });
  const builder = new SemanticTokensBuilder();
  for (const token of tokens.sort((one, other) => one.start - other.start)) {
    const { line, character } = text.positionAt(token.start);
    const end = text.positionAt(token.end);
    if (end.line === line && 0 < end.character - character)
      builder.push(line, character, end.character - character, token.type, token.modifiers);
  }
  return builder.build();
}

/** Sections whose keys are names, at depth 1. */
const NAMING: ReadonlySet<string> = new Set(Object.values(NAMING_MAPS).flat());

function walk(
  value: Located | null,
  depth: number,
  visit: (range: Range, kind: 'name' | 'scalar', plainText: string | null) => void,
  section = '',
): void {
  if (value?.kind === 'scalar') {
    visit(value.range, 'scalar', value.style === 'plain' ? value.text : null);
  } else if (value?.kind === 'list') {
    for (const item of value.items) walk(item, depth + 1, visit, section);
  } else if (value?.kind === 'map') {
    for (const { key, keyRange, value: inner } of value.entries.values()) {
      if (depth === 1 && NAMING.has(section)) visit(keyRange, 'name', null);
      walk(inner, depth + 1, visit, depth === 0 ? key : section);
    }
  }
}

/** Number and unit, as often as a quantity has them: `15 ft 2 in`, `6.18 m ± 20 mm`. */
function quantityTokens({ start }: Range, plainText: string): readonly Token[] {
  if (!/^[-+]?[\d.]+\s*['"a-zA-Z%°µΩ/]/.test(plainText)) return [];
  return [...plainText.matchAll(/([-+]?\d+(?:[./]\d+)*)|([a-zA-Z%°µΩ/'"]+)/g)].map((match) => ({
    start: start + match.index,
    end: start + match.index + match[0].length,
    type: match[1] === undefined ? UNIT : NUMBER,
    modifiers: 0,
  }));
}
