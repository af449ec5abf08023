// A file's text with its blanks put right: one blank behind colons and commas, one inside braces, none at the ends of lines.

interface State {
  /** Open flow maps and lists. */
  depth: number;
  quote: string | null;
  /** Indent of the key whose block scalar is being read; its text is left alone. */
  blockScalar: number | null;
}

export function formattedText(text: string): string {
  const lineBreak = text.includes('\r\n') ? '\r\n' : '\n';
  const state: State = { depth: 0, quote: null, blockScalar: null };
  const lines: string[] = [];
  for (const raw of text.split(/\r?\n/)) {
    const line = formattedLine(state, raw);
    // Runs of empty lines become one, outside of texts where they mean something.
    const isRun = line === '' && lines[lines.length - 1] === '' && isOutside(state);
    if (!isRun) lines.push(line);
  }
  if (isOutside(state)) {
    while (lines[0] === '') lines.shift();
    while (lines[lines.length - 1] === '') lines.pop();
  }
  return `${lines.join(lineBreak)}${lineBreak}`;
}

/** Line by line, none added and none taken away. */
export function formattedLines(text: string): readonly string[] {
  const state: State = { depth: 0, quote: null, blockScalar: null };
  return text.split(/\r?\n/).map((line) => formattedLine(state, line));
}

function isOutside({ quote, blockScalar }: State): boolean {
  return quote === null && blockScalar === null;
}

function formattedLine(state: State, raw: string): string {
  const indent = raw.length - raw.trimStart().length;
  if (state.blockScalar !== null) {
    if (raw.trim() === '' || state.blockScalar < indent) return raw;
    state.blockScalar = null;
  }
  if (state.quote !== null) return continued(state, raw);
  const line = `${raw.slice(0, indent)}${formattedRest(state, raw.slice(indent))}`.trimEnd();
  if (state.depth === 0 && /(?:^|[:-])\s[|>][-+0-9]*(?:\s+#.*)?$/.test(line))
    state.blockScalar = indent;
  return line;
}

/** A line inside a quoted text: left alone up to the quote's end. */
function continued(state: State, raw: string): string {
  const end = quoteEnd(raw, 0, state.quote ?? '"');
  if (end === null) return raw;
  state.quote = null;
  return (raw.slice(0, end) + formattedRest(state, raw.slice(end))).trimEnd();
}

function formattedRest(state: State, text: string): string {
  let out = '';
  let index = 0;
  while (index < text.length) {
    const sign = text[index] ?? '';
    const isBare = out === '' || /[\s{[,:-]$/.test(out);
    if (sign === '#' && (out === '' || /\s$/.test(text.slice(0, index)))) {
      // The blanks before a comment are its author's.
      const blanks = /\s*$/.exec(text.slice(0, index))?.[0] ?? '';
      return out.trimEnd() === '' ? text.slice(index) : out.trimEnd() + blanks + text.slice(index);
    }
    if ((sign === '"' || sign === "'") && isBare) {
      const end = quoteEnd(text, index + 1, sign);
      if (end === null) {
        state.quote = sign;
        return out + text.slice(index);
      }
      out += text.slice(index, end);
      index = end;
      continue;
    }
    out = withSign(state, out, sign, text[index + 1]);
    index += 1;
  }
  return out;
}

function withSign(state: State, out: string, sign: string, next: string | undefined): string {
  const isBare = out === '' || /[\s{[,:-]$/.test(out);
  if ((sign === '{' || sign === '[') && (isBare || 0 < state.depth)) {
    state.depth += 1;
    return out + (sign === '{' && next !== undefined && next !== '}' ? '{ ' : sign);
  }
  if (0 < state.depth && (sign === '}' || sign === ']')) {
    state.depth -= 1;
    const before = out.trimEnd();
    const isEmpty = before.endsWith('{') || before.endsWith('[');
    return before + (sign === '}' && !isEmpty && before !== '' ? ' }' : sign);
  }
  if (0 < state.depth && sign === ',') return `${out.trimEnd()}, `;
  if (sign === ' ' || sign === '\t') return isGap(out) ? out : `${out} `;
  return out + sign;
}

/** Whether one more blank would say nothing. */
function isGap(out: string): boolean {
  return out === '' || /\s$/.test(out) || out.endsWith('[');
}

/** Behind the closing quote; null where it is not on this line. */
function quoteEnd(text: string, from: number, quote: string): number | null {
  for (let index = from; index < text.length; index += 1) {
    if (quote === '"' && text[index] === '\\') index += 1;
    else if (text[index] === quote) {
      if (quote === "'" && text[index + 1] === "'") index += 1;
      else return index + 1;
    }
  }
  return null;
}
