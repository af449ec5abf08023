// The language server under a second, independent client: neovim without a display, on the room of mistakes.

import { spawnSync } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { ROOT } from './support/paths.ts';
import { truthOf } from './support/truth.ts';

const root = `${ROOT}examples`;
const file = `${root}/rooms/cuckoo.room.yaml`;
const text = readFileSync(file, 'utf8');
const lines = text.split('\n');
const lineOf = (part: string) => lines.findIndex((line) => line.includes(part));
const left = truthOf(text).places.find(({ id }) => id === 'left');

const task = {
  root,
  file,
  // The faults that the file's own comments name.
  faults: [
    {
      line: lineOf('frnt:'),
      says: 'front',
      mended: (lines[lineOf('frnt:')] ?? '').replace('frnt', 'front'),
    },
    { line: lineOf('heath_66'), says: 'heath_6' },
    { line: lineOf('temperature: 21'), says: '°C' },
  ],
  // 5.00 m × 10.00 m × 2.50 m.
  hover: { line: lineOf('  size:'), character: 3, says: '125.0 m³' },
  hint: { line: (left?.line ?? 0) - 1, says: `${left?.distance_m.toFixed(2)} m` },
};

const { status } = spawnSync(
  'nvim',
  ['--headless', '--clean', '-n', '-c', `luafile ${ROOT}test/editor/neovim.lua`],
  {
    env: {
      ...process.env,
      NODE: process.execPath,
      SERVER: `${ROOT}dist/server/node.mjs`,
      TASK: JSON.stringify(task),
    },
    stdio: ['ignore', 'inherit', 'inherit'],
    timeout: 300_000,
  },
);
process.exitCode = status ?? 1;
