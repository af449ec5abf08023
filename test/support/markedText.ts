// Marked text: `$0` is the cursor, and a comment of carets says what is told about the line above it.

/** One line of carets: what it covers, and what stands behind it. */
export interface Mark {
  readonly start: number;
  readonly end: number;
  readonly message: string;
}

export interface Marked {
  /** The text as it is read: the marks stay in it, being comments; `$0` is taken out. */
  readonly text: string;
  readonly cursor: number | null;
  readonly marks: readonly Mark[];
}

/** @param source a leading line break is not part of the text */
export function readMarked(source: string): Marked {
  const raw = source.startsWith('\n') ? source.slice(1) : source;
  const at = raw.indexOf('$0');
  const text = at < 0 ? raw : raw.slice(0, at) + raw.slice(at + 2);
  return { text, cursor: at < 0 ? null : at, marks: marksOf(text) };
}

function marksOf(text: string): readonly Mark[] {
  const marks: Mark[] = [];
  let lineStart = 0;
  let above = 0; // where the last line that is no mark starts
  for (const line of text.split('\n')) {
    const match = /^(\s*#\s*)(\^+) (.*)$/.exec(line);
    if (match === null) above = lineStart;
    else {
      const [, before = '', carets = '', message = ''] = match;
      const start = above + before.length;
      marks.push({ start, end: start + carets.length, message });
    }
    lineStart += line.length + 1;
  }
  return marks;
}
