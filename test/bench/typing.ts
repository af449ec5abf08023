// The typing path and the start: in this process and through the built server, beside what anybody must at least do.

import { spawn } from 'node:child_process';
import { parseDocument } from 'yaml';
import { keystrokeTimes } from './keystroke.ts';
import { LINE_COUNT, longRoom } from './longRoom.ts';
import type { Distribution, Row, Table } from './statistics.ts';
import { type StdioTimes, stdioTimes } from './stdio.ts';

const KEY_COUNT = 200;
const START_COUNT = 7;

/** What a person at the keyboard does not notice (goal of the project). */
const KEY = {
  bound: 'median < 5 ms, p95 < 15 ms',
  isKept: ({ median_ms, p95_ms }: Distribution): boolean => median_ms < 5 && p95_ms < 15,
};

export async function tables(): Promise<readonly Table[]> {
  return [await inProcess(), await throughServer()];
}

async function inProcess(): Promise<Table> {
  const times = await keystrokeTimes(KEY_COUNT);
  const text = longRoom();
  return {
    title: `Typing in a room of ${LINE_COUNT} lines, in process: key → diagnostics + hints`,
    rows: [
      { name: '  a key in the geometry', times_ms: times.geometry_ms, ...KEY },
      peer('    yaml: reading the same text, and no more', parseTimes_ms(text)),
      { name: '  a key in a comment', times_ms: times.text_ms, ...KEY },
      { name: '  hover', times_ms: times.hover_ms, ...p95Below(20) },
      { name: '  completion', times_ms: times.completion_ms, ...p95Below(30) },
    ],
  };
}

async function throughServer(): Promise<Table> {
  const title =
    'The same through the built server (dist/server/node.mjs), standard input and output';
  const runs: StdioTimes[] = [];
  const bare_ms: number[] = [];
  for (let index = 0; index < START_COUNT; index += 1) {
    const times = await stdioTimes(index === 0 ? KEY_COUNT : 1);
    if (times) runs.push(times);
    bare_ms.push(await bareStart_ms());
  }
  const [first] = runs;
  if (first === undefined)
    return { title, rows: [], notes: ['  not built: nothing measured (npm run build)'] };
  return {
    title,
    rows: [
      { name: '  a key in the geometry', times_ms: first.keystroke_ms, ...KEY },
      {
        name: '  start → initialize answered',
        times_ms: runs.map(({ initialize_ms }) => initialize_ms),
        ...medianBelow(250),
      },
      {
        name: '  start → first diagnostics',
        times_ms: runs.map(({ firstDiagnostics_ms }) => firstDiagnostics_ms),
        ...medianBelow(400),
      },
      peer('    node: starting, and nothing else', bare_ms),
    ],
  };
}

function parseTimes_ms(text: string): readonly number[] {
  return Array.from({ length: 40 }, () => {
    const start_ms = performance.now();
    parseDocument(text);
    return performance.now() - start_ms;
  }).slice(20); // after as many to warm up
}

async function bareStart_ms(): Promise<number> {
  const start_ms = performance.now();
  await new Promise((resolve) => spawn(process.execPath, ['-e', '0']).on('exit', resolve));
  return performance.now() - start_ms;
}

function peer(name: string, times_ms: readonly number[]): Row {
  return { name, times_ms, bound: 'the peer', isKept: () => true, isPeer: true };
}

function p95Below(bound_ms: number): Pick<Row, 'bound' | 'isKept'> {
  return { bound: `p95 < ${bound_ms} ms`, isKept: ({ p95_ms }) => p95_ms < bound_ms };
}

function medianBelow(bound_ms: number): Pick<Row, 'bound' | 'isKept'> {
  return { bound: `median < ${bound_ms} ms`, isKept: ({ median_ms }) => median_ms < bound_ms };
}
