// How a value is written: prose in quotes, names and quantities plain, records and lists as they are given.

import { isProse, schemaAt } from '../describe.ts';
import type { Located } from '../model/located.ts';
import type { FileKind } from '../model/parsedFile.ts';
import type { Path } from '../model/path.ts';
import { isNumberLike, plainOrQuoted, quoted } from '../quote.ts';

/** @param value the text that is meant, without quotes; of a record or list in flow style, the text to be written */
export function valueText(kind: FileKind, path: Path, value: string, root: Located | null): string {
  const schema = schemaAt(kind, path, root)?.schema ?? {};
  if (isProse(schema)) return quoted(value);
  if (/^(?:\{.*\}|\[.*\])$/s.test(value)) return value;
  const types = [schema.type ?? []].flat();
  const takesNumber =
    ['number', 'integer', 'boolean'].some((type) => types.includes(type)) ||
    schema.const !== undefined;
  return takesNumber && isNumberLike(value) && value !== '' ? value : plainOrQuoted(value);
}
