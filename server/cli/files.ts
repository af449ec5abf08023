// Files for a verb: from the words on the command line to analyses, through the same session as the editor's.

import { existsSync, statSync } from 'node:fs';
import { relative, resolve } from 'node:path';
import type { Analysis } from '../analysis.ts';
import { fieldAtOnce, NO_FIELD } from '../field/fieldPhase.ts';
import { OUR_GLOBS } from '../files/files.ts';
import { baseName } from '../files/uri.ts';
import { measuredAtOnce, NO_MEASURED } from '../measured/measuredPhase.ts';
import { today } from '../node/clock.ts';
import { diskPath, fileUri, nodeFiles } from '../node/nodeFiles.ts';
import { createSession, type Session } from '../session.ts';
import type { Io } from './io.ts';
import { Misuse } from './misuse.ts';

/** What standing input is called in messages. */
export const INPUT_NAME = '<stdin>';

export interface Reading {
  readonly session: Session;
  readonly analyses: readonly Analysis[];
  /** The name of an analysed file for people: relative to the folder, `<stdin>` for the input. */
  readonly nameOf: (uri: string) => string;
}

export interface ReadOptions {
  /** Left out by verbs that do not need it, for it may take seconds. Default true. */
  readonly lowEnd?: boolean;
  /** Takes are read and held against the plan; left out likewise. Default true. */
  readonly takes?: boolean;
}

/**
 * The files with everything that is computed about them.
 *
 * @throws Misuse for a path that is not there, is none of our files, or leads to none
 */
export async function readPaths(
  paths: readonly string[],
  io: Io,
  { lowEnd = true, takes = true }: ReadOptions = {},
): Promise<Reading> {
  const field = lowEnd ? fieldAtOnce((uri) => io.tell(`Working out ${baseName(uri)} …`)) : NO_FIELD;
  const measured = takes
    ? measuredAtOnce(nodeFiles, (name) => io.tell(`Reading ${name} …`))
    : NO_MEASURED;
  const session = createSession(nodeFiles, today, null, field, measured);
  const uris: string[] = [];
  let inputUri: string | null = null;
  for (const path of paths) {
    if (path === '-') {
      inputUri = fileUri(resolve(io.cwd, 'stdin'));
      session.open(inputUri, 0, await io.readInput(), '');
      uris.push(inputUri);
    } else uris.push(...(await urisAt(path, io)));
  }
  const analyses: Analysis[] = [];
  for (const uri of [...new Set(uris)]) {
    const analysis = await session.whole(uri);
    if (analysis === null) throw new Misuse(unreadable(uri, uri === inputUri, io));
    analyses.push(analysis);
  }
  io.tell(null);
  if (analyses.length === 0)
    throw new Misuse(`no room, gear or facility file at ${paths.join(', ')}`);
  return {
    session,
    analyses,
    nameOf: (uri) => (uri === inputUri ? INPUT_NAME : nameOf(uri, io)),
  };
}

/** One room, for verbs that are about one. */
export async function readRoom(
  path: string,
  io: Io,
  options: ReadOptions = {},
): Promise<Reading & { readonly room: Analysis }> {
  if (path !== '-' && isFolder(resolve(io.cwd, path)))
    throw new Misuse(`${path} is a folder; one room file is expected`);
  const reading = await readPaths([path], io, options);
  const [room] = reading.analyses;
  if (room?.source.parsed.kind !== 'room') throw new Misuse(`${path} is no room file`);
  return { ...reading, room };
}

async function urisAt(path: string, io: Io): Promise<readonly string[]> {
  const absolute = resolve(io.cwd, path);
  if (!existsSync(absolute)) throw new Misuse(`${path} does not exist`);
  return isFolder(absolute) ? nodeFiles.find(fileUri(absolute), OUR_GLOBS) : [fileUri(absolute)];
}

function isFolder(path: string): boolean {
  return existsSync(path) && statSync(path).isDirectory();
}

function nameOf(uri: string, { cwd }: Io): string {
  const path = diskPath(uri);
  return path === null ? uri : relative(cwd, path).replaceAll('\\', '/');
}

function unreadable(uri: string, isInput: boolean, io: Io): string {
  return isInput
    ? 'the input is no room, gear or facility file: its first key is none of `room`, `gear`, `facility`'
    : `${nameOf(uri, io)} cannot be read as a room, gear or facility file`;
}
