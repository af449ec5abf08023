// The typing path and the start: in this process and through the built server, beside what anybody must at least do.

import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { build } from 'esbuild';
import { parseDocument } from 'yaml';
import { BUNDLES, buildOptions } from '../../extension/build/bundles.ts';
import type { KeystrokeTimes } from './keystroke.ts';
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
  const times = await keystrokeTimesAsBuilt();
  const text = longRoom();
  return {
    title: `Typing in a room of ${LINE_COUNT} lines, in process, as built: key → diagnostics + hints`,
    rows: [
      {
        name: '  a key in the geometry',
        times_ms: times.geometry_ms,
        cpu_ms: times.geometryCpu_ms,
        ...KEY,
      },
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
  const bare: ReturnType<typeof bareStart>[] = [];
  for (let index = 0; index < START_COUNT; index += 1) {
    const times = await stdioTimes(index === 0 ? KEY_COUNT : 1);
    if (times) runs.push(times);
    bare.push(bareStart());
  }
  const [first] = runs;
  if (first === undefined)
    return { title, rows: [], notes: ['  not built: nothing measured (npm run build)'] };
  return {
    title,
    rows: [
      {
        name: '  a key in the geometry',
        times_ms: first.keystroke_ms,
        cpu_ms: first.keystrokeCpu_ms,
        ...KEY,
      },
      {
        name: '  start → initialize answered',
        times_ms: runs.map(({ initialize_ms }) => initialize_ms),
        cpu_ms: runs.map(({ initializeCpu_ms }) => initializeCpu_ms),
        ...medianBelow(250),
      },
      {
        name: '  start → first diagnostics',
        times_ms: runs.map(({ firstDiagnostics_ms }) => firstDiagnostics_ms),
        cpu_ms: runs.map(({ firstDiagnosticsCpu_ms }) => firstDiagnosticsCpu_ms),
        ...medianBelow(400),
      },
      {
        ...peer(
          '    node: starting, and nothing else',
          bare.map(({ time_ms }) => time_ms),
        ),
        cpu_ms: bare.map(({ cpu_ms }) => cpu_ms),
      },
    ],
  };
}

/** The runner of scripts gives every function its name anew each time; what is shipped does not. */
async function keystrokeTimesAsBuilt(): Promise<KeystrokeTimes> {
  const bundle = BUNDLES.find(({ name }) => name === 'cli');
  if (bundle === undefined) throw new RangeError('no bundle to build like');
  const script = fileURLToPath(new URL('../../out/bench/keystrokeAlone.mjs', import.meta.url));
  const { outdir: _, outExtension: __, chunkNames: ___, ...options } = buildOptions(bundle);
  await build({
    ...options,
    splitting: false,
    entryPoints: [fileURLToPath(new URL('keystrokeAlone.ts', import.meta.url))],
    outfile: script,
  });
  const { stdout, stderr } = spawnSync(process.execPath, [script, String(KEY_COUNT)], {
    encoding: 'utf8',
    maxBuffer: 1 << 26,
  });
  if (stdout === '') throw new Error(`no keys were pressed: ${stderr}`);
  return JSON.parse(stdout);
}

function parseTimes_ms(text: string): readonly number[] {
  return Array.from({ length: 40 }, () => {
    const start_ms = performance.now();
    parseDocument(text);
    return performance.now() - start_ms;
  }).slice(20); // after as many to warm up
}

function bareStart(): { readonly time_ms: number; readonly cpu_ms: number } {
  const start_ms = performance.now();
  const told = 'const { user, system } = process.cpuUsage(); user + system';
  const { stdout } = spawnSync(process.execPath, ['-p', told], { encoding: 'utf8' });
  return { time_ms: performance.now() - start_ms, cpu_ms: Number(stdout) / 1000 };
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
