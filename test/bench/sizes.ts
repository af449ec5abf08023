// What the bundles weigh and what is in them: with nothing shortened, at the start and in all, and as they are shipped.

import { build, type Metafile } from 'esbuild';
import { BUNDLES, type Bundle, buildOptions } from '../../extension/build/bundles.ts';
import { bytesBySource, startFiles } from '../../extension/build/startFiles.ts';
import type { Table } from './statistics.ts';

/** Extension and server for one host, nothing shortened (goal of the project: a start). */
const GOAL_KB = 1500;
const HOSTS = ['node', 'browser'] as const;
const PARTS_TOLD = 8;

interface Weights {
  readonly name: string;
  readonly shipped: number;
  readonly whole: number;
  readonly atStart: number;
  readonly parts: ReadonlyMap<string, number>;
}

export async function tables(): Promise<readonly Table[]> {
  const weights: Weights[] = [];
  for (const bundle of BUNDLES) weights.push(await weigh(bundle));
  const heading = `${''.padEnd(20)} ${'all'.padStart(8)}  ${'at start'.padStart(8)}  ${'shipped'.padStart(8)}   heaviest parts of all`;
  return [
    {
      title:
        'Bundles, kB: nothing shortened; shipped without white space (the command line as it is)',
      rows: [],
      notes: [heading, ...weights.map(line), ...HOSTS.map((host) => together(host, weights))],
    },
  ];
}

async function weigh(bundle: Bundle): Promise<Weights> {
  const options = { ...buildOptions(bundle), metafile: true, write: false } as const;
  const shipped = await build(options);
  const { metafile } = await build({ ...options, minifySyntax: false, minifyWhitespace: false });
  const files = Object.keys(metafile.outputs);
  return {
    name: bundle.name,
    shipped: bytesOf(shipped.metafile, Object.keys(shipped.metafile.outputs)),
    whole: bytesOf(metafile, files),
    atStart: bytesOf(metafile, startFiles(metafile, bundle.entry)),
    parts: partsOf(bytesBySource(metafile, files)),
  };
}

function bytesOf({ outputs }: Metafile, files: readonly string[]): number {
  return files.reduce((sum, file) => sum + (outputs[file]?.bytes ?? 0), 0);
}

function partsOf(sources: ReadonlyMap<string, number>): ReadonlyMap<string, number> {
  const parts = new Map<string, number>();
  for (const [path, bytes] of sources) {
    const part = partOf(path);
    parts.set(part, (parts.get(part) ?? 0) + bytes);
  }
  return parts;
}

/** A package by its name, our own code by its folder, the schemas and what is made of them apart. */
function partOf(path: string): string {
  const inPackage = /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1];
  if (inPackage !== undefined) return inPackage;
  if (path.endsWith('.schema.json')) return 'schema/*.schema.json';
  return path.split('/').slice(0, 2).join('/');
}

function line({ name, whole, atStart, shipped, parts }: Weights): string {
  const heaviest = [...parts]
    .sort(([, one], [, other]) => other - one)
    .slice(0, PARTS_TOLD)
    .map(([part, bytes]) => `${part} ${kB(bytes)}`)
    .join(', ');
  const columns = [whole, atStart, shipped].map((bytes) => kB(bytes).padStart(8)).join('  ');
  return `  ${name.padEnd(18)} ${columns}   ${heaviest}`;
}

function together(host: (typeof HOSTS)[number], weights: readonly Weights[]): string {
  const own = weights.filter(({ name }) => name.endsWith(host));
  const sum = (of: 'whole' | 'atStart' | 'shipped') =>
    own.reduce((bytes, one) => bytes + one[of], 0);
  const isKept = sum('whole') <= GOAL_KB * 1024;
  const columns = [sum('whole'), sum('atStart'), sum('shipped')]
    .map((bytes) => kB(bytes).padStart(8))
    .join('  ');
  return `  ${`both, ${host}`.padEnd(18)} ${columns}   ${GOAL_KB} for all is the start: ${isKept ? 'kept' : 'MISSED'}`;
}

function kB(bytes: number): string {
  return (bytes / 1024).toFixed(0);
}
