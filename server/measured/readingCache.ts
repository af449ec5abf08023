// Readings of takes that are kept: by what was read and in which state of the disk, the least lately used forgotten first.

import type { TakeReading } from '../../core/measured/takeReading.ts';
import { type TakeRequest, urisOf } from './takeRequests.ts';

/** A reading takes some 20 kB: ten megabytes. */
const MOST_KEPT = 500;

export interface ReadingCache {
  /** What names a reading: its request, and how often its files have changed since the start. */
  readonly keyOf: (request: TakeRequest) => string;
  readonly get: (key: string) => TakeReading | null;
  /** The last one of this take's file in any state: it stands in while the new one is made. */
  readonly older: (request: TakeRequest) => TakeReading | null;
  readonly set: (key: string, request: TakeRequest, reading: TakeReading) => void;
  readonly changedOnDisk: (uris: readonly string[]) => void;
}

export function createReadingCache(): ReadingCache {
  const kept = new Map<string, TakeReading>();
  const lastOf = new Map<string, string>();
  const changes = new Map<string, number>();
  return {
    keyOf: (request) =>
      `${JSON.stringify(request)} ${urisOf(request).map((uri) => changes.get(uri) ?? 0)}`,
    get(key) {
      const reading = kept.get(key);
      if (reading === undefined) return null;
      kept.delete(key);
      kept.set(key, reading);
      return reading;
    },
    older: (request) => kept.get(lastOf.get(request.file.uri ?? '') ?? '') ?? null,
    set(key, request, reading) {
      kept.set(key, reading);
      lastOf.set(request.file.uri ?? '', key);
      for (const old of kept.keys()) {
        if (kept.size <= MOST_KEPT) break;
        kept.delete(old);
        for (const [uri, last] of lastOf) if (last === old) lastOf.delete(uri);
      }
    },
    changedOnDisk(uris) {
      for (const uri of uris) changes.set(uri, (changes.get(uri) ?? 0) + 1);
    },
  };
}
