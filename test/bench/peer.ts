// Peers in Python: Debian's own interpreter, which has SciPy where a machine has it at all.

import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const PYTHON = '/usr/bin/python3';

/** @returns null where the peer cannot run here: no such interpreter, or no SciPy */
export function peer<Answer>(script: string, task: unknown): Answer | null {
  const path = fileURLToPath(new URL(script, import.meta.url));
  const ran = spawnSync(PYTHON, [path], {
    input: JSON.stringify(task),
    encoding: 'utf8',
    maxBuffer: 1e8,
  });
  return ran.status === 0 ? (JSON.parse(ran.stdout) as Answer) : null;
}

export const NO_PEER = 'no peer: python3-scipy is not installed on this machine';
