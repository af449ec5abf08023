// Lines of the text around a place.

/** Where the place's line starts. */
export function lineStart(text: string, offset: number): number {
  return text.lastIndexOf('\n', offset - 1) + 1;
}

/** Where the place's line ends, before its line break. */
export function lineStop(text: string, offset: number): number {
  const found = text.indexOf('\n', offset);
  if (found < 0) return text.length;
  return text[found - 1] === '\r' && offset < found ? found - 1 : found;
}

/** The line break that the file uses. */
export function lineBreak(text: string): string {
  return text.includes('\r\n') ? '\r\n' : '\n';
}
