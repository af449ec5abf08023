// Marked text: `$0` is the cursor; a comment of carets says something about the line above it.

/** The text without its mark, and where the mark stood. */
export function cursorIn(marked: string): { readonly text: string; readonly offset: number } {
  const offset = marked.indexOf('$0');
  if (offset === -1) throw new RangeError('no $0 in the text');
  return { text: marked.slice(0, offset) + marked.slice(offset + 2), offset };
}

export interface Annotation {
  readonly line: number;
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** Every `#  ^^^^ text` with the line that it is about and the columns under its carets. */
export function annotationsIn(text: string): readonly Annotation[] {
  const lines = text.split('\n');
  return lines.flatMap((line, index) => {
    const match = /^\s*#\s*(\^+)\s*(.*)$/.exec(line);
    if (!match?.[1]) return [];
    let about = index - 1;
    while (/^\s*#\s*\^/.test(lines[about] ?? '')) about -= 1;
    const from = line.indexOf('^');
    return [{ line: about, from, to: from + match[1].length, text: match[2] ?? '' }];
  });
}

/** The text with an edit list of the protocol applied. */
export function withEdits(
  text: string,
  edits: readonly {
    readonly range: {
      readonly start: { readonly line: number; readonly character: number };
      readonly end: { readonly line: number; readonly character: number };
    };
    readonly newText: string;
  }[],
): string {
  const starts = [0];
  for (let index = 0; index < text.length; index += 1)
    if (text[index] === '\n') starts.push(index + 1);
  const offset = ({ line, character }: { line: number; character: number }): number =>
    (starts[line] ?? text.length) + character;
  return [...edits]
    .map((edit) => ({ from: offset(edit.range.start), to: offset(edit.range.end), ...edit }))
    .sort((one, other) => other.from - one.from)
    .reduce(
      (after, { from, to, newText }) => after.slice(0, from) + newText + after.slice(to),
      text,
    );
}

/** The lines that differ, as `- old` and `+ new`: what a reviewer would see. */
export function changedLines(before: string, after: string): readonly string[] {
  const old = before.split('\n');
  const now = after.split('\n');
  return [
    ...old.filter((line) => !now.includes(line)).map((line) => `- ${line}`),
    ...now.filter((line) => !old.includes(line)).map((line) => `+ ${line}`),
  ];
}
