// Reads lines of a file one after another and remembers where it is: which keys are open, in which flow maps and lists.

import type { Path } from '../../../schema/model/path.ts';

/** A key or list item of a block that is still open. */
export interface Frame {
  readonly indent: number;
  readonly key: string;
  readonly isItem: boolean;
  /** Nothing stands behind its colon, so that lines below may belong to it. */
  readonly isOpen: boolean;
  /** Indent of the lines that belong to it; null before the first one. */
  childIndent: number | null;
  readonly keys: string[];
}

/** A flow map or list that is still open. */
interface Flow {
  readonly kind: 'map' | 'list';
  /** The key whose value is being read; null while a key is. */
  key: string | null;
  index: number;
  readonly keys: string[];
}

/** What the reader remembers from line to line. Belongs to one reading, which changes it. */
export interface ScanState {
  readonly frames: Frame[];
  readonly rootKeys: string[];
  rootIndent: number | null;
  readonly flows: Flow[];
  /** What was read of the key or value that is being read in a flow. */
  token: string;
  quote: string | null;
  inComment: boolean;
  /** Indent of the key whose block scalar is being read. */
  blockScalar: number | null;
  /** Indent of the line on which the open flow began. */
  flowIndent: number;
}

/** Where a half-read line ends. */
export type LineEnd =
  | { readonly kind: 'nothing' }
  | { readonly kind: 'flow'; readonly column: number }
  | {
      readonly kind: 'key' | 'value';
      readonly path: Path;
      readonly column: number;
      readonly seenKeys: readonly string[];
    };

export function newState(): ScanState {
  return {
    frames: [],
    rootKeys: [],
    rootIndent: null,
    flows: [],
    token: '',
    quote: null,
    inComment: false,
    blockScalar: null,
    flowIndent: 0,
  };
}

export function isFlowOpen({ flows }: ScanState): boolean {
  return 0 < flows.length;
}

/**
 * Reads one line.
 *
 * @param isLast it ends at the cursor, so that even nothing but an indent says where a key would stand
 */
export function blockLine(state: ScanState, line: string, isLast = false): LineEnd {
  if (isFlowOpen(state)) {
    startFlowLine(state);
    readFlow(state, line);
    return { kind: 'nothing' };
  }
  const indent = line.length - line.trimStart().length;
  const content = line.slice(indent);
  if (state.blockScalar !== null) {
    if (content === '' || state.blockScalar < indent) return { kind: 'nothing' };
    state.blockScalar = null;
  }
  if (content.startsWith('#') || (content === '' && !isLast)) return { kind: 'nothing' };
  if (/^(?:---|\.\.\.|%)/.test(content)) return { kind: 'nothing' };
  return content.startsWith('- ') || content === '-'
    ? itemLine(state, line, indent)
    : entryLine(state, line, indent);
}

function itemLine(state: ScanState, line: string, indent: number): LineEnd {
  closeFrames(state, ({ indent: open }) => indent < open);
  const last = top(state);
  const isNext = last?.isItem === true && last.indent === indent;
  if (isNext) state.frames.pop();
  const index = isNext ? Number(last.key) + 1 : 0;
  const parent = top(state);
  if (parent && !parent.isOpen) return { kind: 'nothing' };
  state.frames.push(frame(indent, String(index), true, true));
  const rest = line.slice(indent + 1);
  const column = indent + 1 + (rest.length - rest.trimStart().length);
  const content = line.slice(column);
  return keyLength(content) === null
    ? valueRest(state, line, column, pathOf(state), indent)
    : entryLine(state, line, column);
}

function entryLine(state: ScanState, line: string, indent: number): LineEnd {
  closeFrames(state, ({ indent: open }) => indent <= open);
  const content = line.slice(indent);
  const length = keyLength(content);
  const parent = top(state);
  if (parent && !parent.isOpen) return { kind: 'nothing' };
  if (length === null) {
    const seenKeys = parent ? parent.keys : state.rootKeys;
    if (/^["'{[]/.test(content)) return { kind: 'nothing' };
    return { kind: 'key', path: pathOf(state), column: indent, seenKeys };
  }
  if (parent) parent.childIndent ??= indent;
  else state.rootIndent ??= indent;
  const key = unquoted(content.slice(0, length).trimEnd());
  (parent ? parent.keys : state.rootKeys).push(key);
  const afterColon = content.slice(length + 1);
  const value = afterColon.trimStart();
  const isOpen = value === '' || value.startsWith('#');
  const column = indent + length + 1 + (afterColon.length - value.length);
  state.frames.push(frame(indent, key, false, isOpen));
  if (/^[|>][-+0-9]*\s*(?:#.*)?$/.test(value)) {
    state.blockScalar = indent;
    return { kind: 'nothing' };
  }
  return valueRest(state, line, column, pathOf(state), indent);
}

/** What stands behind a colon or a dash. */
function valueRest(
  state: ScanState,
  line: string,
  column: number,
  path: Path,
  indent: number,
): LineEnd {
  const value = line.slice(column);
  if (/^[{[]/.test(value)) {
    state.flowIndent = indent;
    state.token = '';
    readFlow(state, value);
    return isFlowOpen(state) ? { kind: 'flow', column: line.length } : { kind: 'nothing' };
  }
  if (/^["'|>]/.test(value) || /(?:^|\s)#/.test(value)) return { kind: 'nothing' };
  return { kind: 'value', path, column, seenKeys: [] };
}

/**
 * Where the flow stands after a line that ends at the cursor.
 *
 * @returns null inside quotes and comments and behind a finished map or list
 */
export function flowEnd(
  state: ScanState,
  line: string,
): {
  readonly kind: 'key' | 'value';
  readonly path: Path;
  readonly typed: string;
  readonly seenKeys: readonly string[];
} | null {
  readFlow(state, line);
  const flow = state.flows[state.flows.length - 1];
  if (!flow || state.quote !== null || state.inComment) return null;
  const typed = state.token.replace(/^\s+/, '');
  if (/^["'}\]]/.test(typed)) return null;
  const isKey = flow.kind === 'map' && flow.key === null;
  const path = [...pathOf(state), ...flowPath(state)];
  return { kind: isKey ? 'key' : 'value', path, typed, seenKeys: flow.keys };
}

/** Further keys of the innermost flow map, from the cursor to where it ends. Leaves the state as it is. */
export function keysAhead(state: ScanState, rest: string): readonly string[] {
  const flows = state.flows.map((one) => ({ ...one, keys: [...one.keys] }));
  const ahead = { ...state, flows };
  const depth = ahead.flows.length;
  const flow = ahead.flows[depth - 1];
  if (!flow) return [];
  const knownCount = flow.keys.length;
  for (const line of rest.slice(0, FARTHEST).split('\n')) {
    readFlow(ahead, line, depth);
    if (ahead.flows.length < depth) break;
    startFlowLine(ahead);
  }
  return flow.keys.slice(knownCount);
}

/** A flow map that is longer than this is not one that people write. */
const FARTHEST = 4000;

/** @param depth stops once fewer flows are open */
function readFlow(state: ScanState, line: string, depth = 1): void {
  state.inComment = false;
  for (let index = 0; index < line.length; index += 1) {
    const sign = line[index] ?? '';
    if (state.quote !== null) {
      state.token += sign;
      if (sign === '\\' && state.quote === '"') {
        index += 1;
        state.token += line[index] ?? '';
      } else if (sign === state.quote) state.quote = null;
      continue;
    }
    if (sign === '#' && /^$|\s$/.test(line.slice(0, index))) {
      state.inComment = true;
      return;
    }
    readFlowSign(state, sign, line[index + 1]);
    if (state.flows.length < depth) return;
  }
}

/** What stands at the end of a line is finished: behind it a comma is due, and nothing to complete. */
export function startFlowLine(state: ScanState): void {
  if (state.quote === null) state.token = state.token.trim() === '' ? '' : FINISHED;
}

const FINISHED = '}';

function readFlowSign(state: ScanState, sign: string, next: string | undefined): void {
  const flow = state.flows[state.flows.length - 1];
  const isBare = state.token.trim() === '';
  if ((sign === '{' || sign === '[') && isBare) {
    state.flows.push({ kind: sign === '{' ? 'map' : 'list', key: null, index: 0, keys: [] });
    state.token = '';
  } else if (sign === '}' || sign === ']') {
    state.flows.pop();
    state.token = FINISHED; // Behind a closed one nothing is to be written but a comma.
  } else if (sign === ',' && flow) {
    flow.key = null;
    flow.index += 1;
    state.token = '';
  } else if (sign === ':' && flow?.kind === 'map' && flow.key === null && endsKey(next)) {
    flow.key = unquoted(state.token.trim());
    flow.keys.push(flow.key);
    state.token = '';
  } else {
    if ((sign === '"' || sign === "'") && isBare) state.quote = sign;
    state.token += sign;
  }
}

function endsKey(next: string | undefined): boolean {
  return next === undefined || /[\s,}\]]/.test(next);
}

function flowPath({ flows }: ScanState): Path {
  const path: string[] = [];
  for (const [depth, flow] of flows.entries()) {
    const isInner = depth === flows.length - 1;
    if (flow.kind === 'list') path.push(String(flow.index));
    else if (flow.key !== null) path.push(flow.key);
    else if (!isInner) path.push('');
  }
  return path;
}

function pathOf({ frames }: ScanState): Path {
  return frames.map(({ key }) => key);
}

function closeFrames({ frames }: ScanState, isClosed: (frame: Frame) => boolean): void {
  for (
    let last = frames[frames.length - 1];
    last && isClosed(last);
    last = frames[frames.length - 1]
  )
    frames.pop();
}

function top({ frames }: ScanState): Frame | undefined {
  return frames[frames.length - 1];
}

function frame(indent: number, key: string, isItem: boolean, isOpen: boolean): Frame {
  return { indent, key, isItem, isOpen, childIndent: null, keys: [] };
}

/** How long the key at the start of this text is, up to its colon; null where there is none. */
function keyLength(content: string): number | null {
  const match = /^(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*'|[^\s"'#{}[\],][^#]*?)\s*(?=:(?:\s|$))/.exec(
    content,
  );
  return match ? match[0].length : null;
}

function unquoted(key: string): string {
  return key.replace(/^(["'])(.*)\1$/, '$2');
}
