// The path under an offset: the innermost entry or list item that the offset stands in.

import type { Located, Range } from '../schema/model/located.ts';
import type { ParsedFile } from '../schema/model/parsedFile.ts';
import type { Path } from '../schema/model/path.ts';

/** null where the offset stands in nothing: between entries of the file, in a file that cannot be read. */
export function pathAt({ root }: ParsedFile, offset: number): Path | null {
  const path: string[] = [];
  let value: Located | null = root;
  for (;;) {
    const step: Step | null = stepAt(value, offset);
    if (step === null) return path.length === 0 ? null : path;
    path.push(step.key);
    value = step.value;
  }
}

interface Step {
  readonly key: string;
  readonly value: Located | null;
}

function stepAt(value: Located | null, offset: number): Step | null {
  if (value?.kind === 'map') {
    for (const entry of value.entries.values())
      if (holds(entry.range, offset) || holds(entry.keyRange, offset))
        return { key: entry.key, value: entry.value };
  } else if (value?.kind === 'list') {
    for (const [index, item] of value.items.entries())
      if (item && holds(item.range, offset)) return { key: String(index), value: item };
  }
  return null;
}

function holds({ start, end }: Range, offset: number): boolean {
  return start <= offset && offset <= end;
}
