// Which kind a text is by its first key (`room: 1`): for standard input and unsaved files, which have no name to tell it.

import type { FileKind } from '../../schema/model/parsedFile.ts';

/** null where the first line that is no comment names no kind and version. */
export function kindByFirstKey(text: string): FileKind | null {
  const match =
    /^\uFEFF?(?:\s*(?:#[^\n]*)?\n)*(room|gear|facility):[ \t]*\d+[ \t]*(?:#|\r?\n|$)/.exec(
      text.slice(0, 20_000),
    );
  const kind = match?.[1];
  return kind === 'room' || kind === 'gear' || kind === 'facility' ? kind : null;
}
