// Reads a file's text: located tree and problems. A parser keeps what it read, and reads again only the parts that an edit changed.

import { rootSchema, stepInto } from '../describe.ts';
import type { LocatedEntry, LocatedMap, Range } from '../model/located.ts';
import type { FileKind, ParsedFile } from '../model/parsedFile.ts';
import type { Problem } from '../model/problem.ts';
import { validators } from '../validators.generated.js';
import { alternativesProblems } from './alternatives.ts';
import { type Placed, readBlock, type Source } from './block.ts';
import { withoutEmptied, withoutFollowing } from './cascades.ts';
import { firstDocument } from './documents.ts';
import { addOnce } from './doubles.ts';
import { decorationProblems } from './expand.ts';
import {
  countValues,
  MOST_CHARACTERS,
  MOST_VALUES,
  tooDeep,
  tooLarge,
  tooMany,
  withinCount,
} from './limits.ts';
import { type Decoration, newReading, problem } from './reading.ts';
import { checkRoot } from './root.ts';
import { firstIndent, splitAtKeys } from './segments.ts';
import { checkShape } from './shape.ts';
import { shiftEntry, shiftLocated, shiftProblem, shiftRange } from './shift.ts';

export interface Parser {
  /** The same as `parseFile`, faster where most of the text was read before. */
  readonly parse: (text: string) => ParsedFile;
}

/** Reads one text; where a file is read again and again, `createParser` is quicker. */
export function parseFile(kind: FileKind, text: string): ParsedFile {
  return createParser(kind).parse(text);
}

/** A parser for the versions of one file. It holds the parts of the version that it read last. */
export function createParser(kind: FileKind): Parser {
  const parts = new Map<string, Placed>();
  let known: ReadonlyMap<string, Block> = new Map();
  return {
    parse(text: string): ParsedFile {
      if (MOST_PARTS < parts.size) parts.clear(); // of versions long gone, most of them
      const blocks = new Map<string, Block>();
      const file = parseText(kind, text, (range) => {
        const part = text.slice(range.start, range.end);
        const block = blocks.get(part) ?? known.get(part);
        const placed =
          block === undefined
            ? parseBlock(kind, { text, reading: newReading(), memory: parts }, range)
            : moved(block, range.start);
        blocks.set(part, placed);
        return placed;
      });
      known = blocks;
      return file;
    },
  };
}

/** So many lines and records of former versions are kept, each with its text. */
const MOST_PARTS = 10_000;

/** What one part of a file, from a key of the root on, was read as. */
interface Block {
  readonly base: number;
  readonly entries: readonly LocatedEntry[];
  readonly problems: readonly Problem[];
  readonly decorations: readonly Decoration[];
  readonly valueCount: number;
  /** Something in it could not be read for certain. */
  readonly isUncertain: boolean;
}

function parseText(kind: FileKind, text: string, blockOf: (range: Range) => Block): ParsedFile {
  if (MOST_CHARACTERS < text.length) return refused(kind, text, tooLarge(text));
  const { range, problems: documentProblems } = firstDocument(text);
  const problems: Problem[] = [...documentProblems];
  const decorations: Decoration[] = [];
  const entries = new Map<string, LocatedEntry>();
  const uncertain = new Set<string>();
  let valueCount = 0;
  for (const part of rootParts(text, range)) {
    const block = blockOf(part);
    valueCount += block.valueCount;
    if (MOST_VALUES < valueCount) return refused(kind, text, tooMany(part));
    problems.push(...block.problems);
    decorations.push(...block.decorations);
    for (const entry of block.entries) {
      addOnce(entry, entries, [], problems);
      if (block.isUncertain) uncertain.add(entry.key);
    }
  }
  problems.push(...decorationProblems(text, decorations));
  const root: LocatedMap | null =
    0 < entries.size ? { kind: 'map', entries, flow: false, range: contentRange(entries) } : null;
  const damaged = problems.some(({ code, path }) => path.length === 0 && code.startsWith('yaml/'));
  const told = checkRoot(kind, text, { root, problems, damaged, uncertain });
  const more = root === null || kind !== 'room' ? [] : alternativesProblems(root, uncertain);
  const all = [...told, ...more].sort((a, b) => a.range.start - b.range.start);
  return { kind, text, root, problems: withinCount(withoutEmptied(text, all)) };
}

/** The whole text is one part where it is not a block map at all. */
function rootParts(text: string, range: Range): readonly Range[] {
  const parts = splitAtKeys(text, range, 0);
  const [first] = parts;
  const content = firstIndent(text, range);
  if (content === null) return [];
  const isFlow = text[content.at] === '{' || text[content.at] === '[';
  return first === undefined || content.at < first.start || isFlow ? [range] : parts;
}

function refused(kind: FileKind, text: string, why: Problem): ParsedFile {
  return { kind, text, root: null, problems: [why] };
}

function contentRange(entries: ReadonlyMap<string, LocatedEntry>): Range {
  const all = [...entries.values()].map(({ range }) => range);
  return {
    start: Math.min(...all.map(({ start }) => start)),
    end: Math.max(...all.map(({ end }) => end)),
  };
}

function parseBlock(kind: FileKind, source: Source, range: Range): Block {
  const { reading } = source;
  const deep = tooDeep(source.text, range);
  const valueCount = countValues(source.text, range);
  if (deep !== null || MOST_VALUES < valueCount) {
    const problems = deep === null ? [] : [deep];
    return {
      base: range.start,
      entries: [],
      problems,
      decorations: [],
      valueCount,
      isUncertain: true,
    };
  }
  const schema = rootSchema(kind);
  const entries = readBlock(source, range, []);
  for (const entry of entries) {
    const { key, value } = entry;
    const below = stepInto(schema, key);
    const validator = Object.hasOwn(validators[kind].keys, key)
      ? validators[kind].keys[key]
      : undefined;
    if (below === null || validator === undefined || reading.damaged.has(entry)) continue;
    if (value === null) {
      const colon = reading.emptyAt.has(entry);
      if (colon)
        reading.problems.push(
          problem('format/empty-value', [key], entry.keyRange, `\`${key}\` has no value`),
        );
    } else checkShape(value, entry, below, [key], validator, reading);
  }
  const { decorations, holds } = reading;
  const problems = withoutFollowing(reading.problems);
  const isUncertain = 0 < holds.length;
  return { base: range.start, entries, problems, decorations, valueCount, isUncertain };
}

function moved(block: Block, base: number): Block {
  const by = base - block.base;
  if (by === 0) return block;
  return {
    ...block,
    base,
    entries: block.entries.map((entry) => shiftEntry(entry, by)),
    problems: block.problems.map((one) => shiftProblem(one, by)),
    decorations: block.decorations.map((one) => ({
      ...one,
      range: shiftRange(one.range, by),
      node: one.node && shiftLocated(one.node, by),
    })),
  };
}
