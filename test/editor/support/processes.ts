// Starts a server in a process group of its own, waits until it answers, and ends it with everything under it.

import { type ChildProcess, spawn } from 'node:child_process';
import { closeSync, openSync, readFileSync } from 'node:fs';
import { createServer } from 'node:net';

export interface Running {
  readonly pid: number;
  stop(): Promise<void>;
}

export interface Start {
  readonly command: string;
  readonly args: readonly string[];
  readonly env?: NodeJS.ProcessEnv;
  /** Its output, to be read when a test fails. */
  readonly log: string;
  /** Answers 200 when it is ready. */
  readonly readyUrl: string;
}

const READY_WITHIN_MS = 90_000;
const STOP_WITHIN_MS = 15_000;

export async function startServer({ command, args, env, log, readyUrl }: Start): Promise<Running> {
  const output = openSync(log, 'w');
  const child = spawn(command, args, { env, stdio: ['ignore', output, output], detached: true });
  closeSync(output);
  const { pid } = child;
  if (pid === undefined) throw new Error(`${command} could not be started`);
  const gone = new Promise<void>((done) => child.once('exit', () => done()));
  const running = { pid, stop: () => stop(child, pid, gone) };
  if (await answers(readyUrl, child)) return running;
  await running.stop();
  throw new Error(`The server did not start:\n${readFileSync(log, 'utf8')}`);
}

async function answers(url: string, child: ChildProcess): Promise<boolean> {
  for (const end = Date.now() + READY_WITHIN_MS; Date.now() < end && child.exitCode === null; ) {
    const response = await fetch(url).catch(() => null);
    if (response?.ok) return true;
    await new Promise((done) => setTimeout(done, 50));
  }
  return false;
}

async function stop(child: ChildProcess, pid: number, gone: Promise<void>): Promise<void> {
  if (child.exitCode !== null || child.signalCode !== null) return;
  process.kill(-pid, 'SIGTERM');
  const timer = setTimeout(() => process.kill(-pid, 'SIGKILL'), STOP_WITHIN_MS);
  await gone;
  clearTimeout(timer);
}

export async function freePort(): Promise<number> {
  return new Promise((done, fail) => {
    const server = createServer().once('error', fail);
    server.listen(0, '127.0.0.1', () => {
      const address = server.address();
      const port = typeof address === 'object' && address ? address.port : 0;
      server.close(() => done(port));
    });
  });
}
