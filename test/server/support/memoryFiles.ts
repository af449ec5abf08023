// Files in memory: a facility for tests that need no disk.

import picomatch from 'picomatch';
import { type Files, staysBelow } from '../../../server/files/files.ts';
import { relativeTo } from '../../../server/files/uri.ts';

/** @param texts by URI; may be changed between calls, as a disk may */
export function memoryFiles(texts: Map<string, string>): Files {
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
      return text === undefined ? { why: 'none' } : { bytes: new TextEncoder().encode(text) };
    },
    exists: (uri) => texts.has(uri),
  };
}
