// Writes a schema's example as it would stand in a file.

import { plainOrQuoted } from './quote.ts';

/** As a flow value in one line: `{ x: 1.38 m, y: 0.86 m }`. */
export function exampleText(value: unknown): string {
  if (Array.isArray(value)) return `[${value.map(exampleText).join(', ')}]`;
  if (typeof value === 'object' && value !== null) {
    const entries = Object.entries(value).map(([key, inner]) => `${key}: ${exampleText(inner)}`);
    return entries.length === 0 ? '{}' : `{ ${entries.join(', ')} }`;
  }
  return typeof value === 'string' ? plainOrQuoted(value) : String(value);
}
