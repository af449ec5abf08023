// What has to be read for each take of a room: its file, and what it was made with, as files inside the fence.

import type { MeasuringSession, MeasuringTake } from '../../schema/model/sessions.ts';
import type { Analysis } from '../analysis.ts';
import { folderOf, isBelow, join } from '../files/uri.ts';

/** A file as the room names it, and where it is; null where its path leads out of the fence. */
export interface NamedUri {
  readonly name: string;
  readonly uri: string | null;
}

export interface TakeRequest {
  readonly file: NamedUri;
  readonly sweep: NamedUri | null;
  readonly corrections: readonly NamedUri[];
  readonly channel: number;
  readonly loopback: number | null;
  readonly timing: MeasuringTake['timing'];
  /** No link may lead out of it. */
  readonly fence: string;
}

export type RequestOf = (take: MeasuringTake, session: MeasuringSession) => TakeRequest | null;

/** Takes are read, without end, from nobody's thousandth file on. */
export const MOST_TAKES = 500;

/** @returns null for a take that names no file */
export function requestsOf({ source, surroundings: { fence } }: Analysis): RequestOf {
  const named = (name: string): NamedUri => {
    const isPath = !/^[a-z][a-z0-9+.-]*:/i.test(name) && !name.startsWith('/');
    const uri = join(folderOf(source.uri), name);
    return { name, uri: isPath && isBelow(uri, fence) ? uri : null };
  };
  return ({ file, sweep, channel, loopback, timing }, { microphone, interface: wired }) =>
    file === null
      ? null
      : {
          file: named(file),
          sweep: sweep === null || sweep === undefined ? null : named(sweep),
          corrections: [microphone, wired].flatMap((name) => (name === null ? [] : [named(name)])),
          channel: channel ?? 1,
          loopback: loopback ?? null,
          timing,
          fence,
        };
}

/** Files that a request rests on. */
export function urisOf({ file, sweep, corrections }: TakeRequest): readonly string[] {
  return [file, ...(sweep === null ? [] : [sweep]), ...corrections].flatMap(({ uri }) => uri ?? []);
}
