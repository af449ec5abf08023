// Reads a file's text: located tree and problems. A parser keeps what it read, and reads again only the parts that an edit changed.

import { rootSchema, stepInto } from '../describe.ts';
import type { LocatedEntry, LocatedMap, Range } from '../model/located.ts';
import type { FileKind, ParsedFile } from '../model/parsedFile.ts';
import type { Problem } from '../model/problem.ts';
import { validators } from '../validators.generated.js';
import { alternativesProblems } from './alternatives.ts';
import { readBlock } from './block.ts';
import { firstDocument } from './documents.ts';
import { decorationProblems } from './expand.ts';
import { beyondLimits, withinCount } from './limits.ts';
import { type Decoration, newReading, problem } from './reading.ts';
import { checkRoot } from './root.ts';
import { splitAtKeys } from './segments.ts';
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
  let known: ReadonlyMap<string, Block> = new Map();
  return {
    parse(text: string): ParsedFile {
      const blocks = new Map<string, Block>();
      const file = parseText(kind, text, (part, base) => {
        const block = moved(
          known.get(part) ?? blocks.get(part) ?? parseBlock(kind, part, base),
          base,
        );
        blocks.set(part, block);
        return block;
      });
      known = blocks;
      return file;
    },
  };
}

/** What one part of a file, from a key of the root on, was read as. */
interface Block {
  readonly base: number;
  readonly entries: readonly LocatedEntry[];
  readonly problems: readonly Problem[];
  readonly decorations: readonly Decoration[];
}

function parseText(
  kind: FileKind,
  text: string,
  blockOf: (part: string, base: number) => Block,
): ParsedFile {
  const refused = beyondLimits(text);
  if (refused !== null) return { kind, text, root: null, problems: [refused] };
  const { range, problems: documentProblems } = firstDocument(text);
  const problems: Problem[] = [...documentProblems];
  const decorations: Decoration[] = [];
  const entries = new Map<string, LocatedEntry>();
  for (const part of rootParts(text, range)) {
    const block = blockOf(text.slice(part.start, part.end), part.start);
    problems.push(...block.problems);
    decorations.push(...block.decorations);
    for (const entry of block.entries) addEntry(entry, entries, problems);
  }
  problems.push(...decorationProblems(text, decorations));
  const root: LocatedMap | null =
    0 < entries.size ? { kind: 'map', entries, flow: false, range: contentRange(entries) } : null;
  const damaged = problems.some(({ code, path }) => path.length === 0 && code.startsWith('yaml/'));
  const told = checkRoot(kind, text, root, problems, damaged);
  const more = root === null || kind !== 'room' ? [] : alternativesProblems(root);
  const all = [...told, ...more].sort((a, b) => a.range.start - b.range.start);
  return { kind, text, root, problems: withinCount(all) };
}

/** The whole text is one part where it is not a block map at all. */
function rootParts(text: string, range: Range): readonly Range[] {
  const parts = splitAtKeys(text, range, 0);
  const [first] = parts;
  const before = text.slice(range.start, first?.start ?? range.end);
  const strange =
    /^\s*(?:#[^\n]*\n\s*)*[^\s#]/.test(before) ||
    /^[{[]/.test(text.slice(first?.start ?? 0, (first?.start ?? 0) + 1));
  if (!strange) return parts;
  return text.slice(range.start, range.end).trim() === '' ? [] : [range];
}

function addEntry(
  entry: LocatedEntry,
  entries: Map<string, LocatedEntry>,
  problems: Problem[],
): void {
  const first = entries.get(entry.key);
  if (first === undefined) {
    entries.set(entry.key, entry);
    return;
  }
  problems.push({
    ...problem(
      'yaml/duplicate-key',
      [entry.key],
      entry.keyRange,
      `\`${entry.key}\` stands here twice; the first one counts`,
    ),
    related: [{ path: [entry.key], message: `the first \`${entry.key}\`` }],
  });
}

function contentRange(entries: ReadonlyMap<string, LocatedEntry>): Range {
  const all = [...entries.values()].map(({ range }) => range);
  return {
    start: Math.min(...all.map(({ start }) => start)),
    end: Math.max(...all.map(({ end }) => end)),
  };
}

/** Reads one part for itself: its places count from `base`. */
function parseBlock(kind: FileKind, part: string, base: number): Block {
  const reading = newReading();
  const schema = rootSchema(kind);
  const entries = readBlock(part, { start: 0, end: part.length }, [], reading);
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
  const { problems, decorations } = reading;
  return moved({ base: 0, entries, problems, decorations }, base);
}

function moved(block: Block, base: number): Block {
  const by = base - block.base;
  if (by === 0) return block;
  return {
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
