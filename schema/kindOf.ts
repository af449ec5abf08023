// Which kind of file a name stands for.

import type { FileKind } from './model/parsedFile.ts';

/**
 * @param name a file's name, with or without its folders, as a path or a URI
 * @returns null where it is none of ours
 */
export function kindOf(name: string): FileKind | null {
  const last = name.slice(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1);
  if (last === 'facility.yaml') return 'facility';
  if (last.endsWith('.room.yaml')) return 'room';
  return last.endsWith('.gear.yaml') ? 'gear' : null;
}
