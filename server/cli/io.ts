// Standard input and output, the folder and the environment: all that a verb sees of the world, so that tests can stand in for it.

import { writeFile } from 'node:fs/promises';
import { createColors } from 'picocolors';

export type Colors = ReturnType<typeof createColors>;

export interface Io {
  readonly cwd: string;
  readonly out: (text: string) => void;
  readonly err: (text: string) => void;
  /** Says at a terminal what takes a while, in one line that goes away again by null; nothing where nobody watches. */
  readonly tell: (text: string | null) => void;
  readonly readInput: () => Promise<string>;
  /** @throws where the file cannot be written */
  readonly writeFile: (
    path: string,
    text: string | Uint8Array,
    options: { readonly isNew: boolean },
  ) => Promise<void>;
  readonly colors: Colors;
  /** How wide the terminal is; 100 where there is none. */
  readonly width: number;
}

export function processIo(): Io {
  // A reader that has seen enough (`| head`) is no fault of ours.
  for (const stream of [process.stdout, process.stderr])
    stream.on('error', (error: NodeJS.ErrnoException) => {
      if (error.code === 'EPIPE') process.exit(process.exitCode ?? 0);
      throw error;
    });
  return {
    cwd: process.cwd(),
    out: (text) => void process.stdout.write(text),
    err: (text) => void process.stderr.write(text),
    tell: (text) => {
      if (process.stderr.isTTY) process.stderr.write(`\r\u001b[K${text ?? ''}`);
    },
    readInput: async () => {
      const chunks: Buffer[] = [];
      for await (const chunk of process.stdin) chunks.push(Buffer.from(chunk));
      return Buffer.concat(chunks).toString('utf8');
    },
    writeFile: (path, text, { isNew }) => writeFile(path, text, { flag: isNew ? 'wx' : 'w' }),
    colors: createColors(wantsColor(process.env, process.stdout.isTTY)),
    width: process.stdout.columns ?? 100,
  };
}

/** https://no-color.org; FORCE_COLOR for those who pipe into a pager that shows colours. */
function wantsColor(environment: NodeJS.ProcessEnv, isTerminal: boolean): boolean {
  if (environment.NO_COLOR) return false;
  if (environment.FORCE_COLOR && environment.FORCE_COLOR !== '0') return true;
  return isTerminal === true && environment.TERM !== 'dumb';
}
