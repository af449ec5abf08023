// Files in memory: a facility for tests that need no disk.

import picomatch from 'picomatch';
import { type Files, staysBelow } from '../../../server/files/files.ts';
import { relativeTo } from '../../../server/files/uri.ts';

/**
 * @param texts by URI; may be changed between calls, as a disk may
 * @param sounds files that are no texts, by URI
 */
export function memoryFiles(
  texts: Map<string, string>,
  sounds: Map<string, Uint8Array> = new Map(),
): Files {
  return {
    find: async (folder, globs) => {
      const matches = picomatch(globs.filter(staysBelow));
      return [...texts.keys()]
        .filter((uri) => {
          const relative = relativeTo(folder, uri);
          return relative !== null && matches(relative);
        })
        .sort();
    },
    read: async (uri) => texts.get(uri) ?? null,
    bytes: async (uri) => {
      const text = texts.get(uri);
      const bytes = sounds.get(uri) ?? (text === undefined ? null : new TextEncoder().encode(text));
      return bytes === null ? { why: 'none' } : { bytes };
    },
    exists: (uri) => texts.has(uri) || sounds.has(uri),
  };
}
