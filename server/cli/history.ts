// The versions of a room file that git keeps, newest first. Only read: `git log` and `git cat-file`, without a shell.

import { execFile } from 'node:child_process';
import { basename, dirname } from 'node:path';
import { promisify } from 'node:util';
import { Misuse } from './misuse.ts';

export interface Version {
  /** Short; null for the file as it lies in the folder. */
  readonly commit: string | null;
  readonly date: string;
  readonly subject: string;
  readonly text: string;
}

/** More than any room's history that a person reads. */
const MOST_VERSIONS = 200;
const MOST_BYTES = 64 * 1024 * 1024;

const execute = promisify(execFile);

/**
 * @param path absolute, on the disk
 * @throws Misuse where git is not there or keeps nothing of the file
 */
export async function versionsOf(path: string): Promise<readonly Version[]> {
  const [folder, name] = [dirname(path), basename(path)];
  const git = async (...args: readonly string[]): Promise<string> =>
    (await execute('git', args, { cwd: folder, maxBuffer: MOST_BYTES, windowsHide: true })).stdout;
  try {
    const format = '--format=%h%x09%as%x09%s';
    const log = await git('log', `-n${MOST_VERSIONS}`, '--no-color', format, '--', name);
    const versions: Version[] = [];
    for (const line of log.split('\n').filter(Boolean)) {
      const [commit = '', date = '', ...subject] = line.split('\t');
      const text = await git('cat-file', 'blob', `${commit}:./${name}`).catch(() => null);
      if (text !== null) versions.push({ commit, date, subject: subject.join('\t'), text });
    }
    if (versions.length === 0) throw new Misuse(`git keeps no version of ${name}`);
    return versions;
  } catch (error) {
    if (error instanceof Misuse) throw error;
    throw new Misuse(
      `the history of ${name} cannot be read: is git installed, and the folder under it?`,
    );
  }
}
