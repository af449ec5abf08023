// What the bundles weigh and what is in them, from the lists that the bundler writes beside them.

import { existsSync, readdirSync, readFileSync } from 'node:fs';

const META = new URL('../../dist/meta/', import.meta.url);

interface Metafile {
  readonly outputs: Readonly<
    Record<
      string,
      {
        readonly bytes: number;
        readonly inputs: Readonly<Record<string, { readonly bytesInOutput: number }>>;
      }
    >
  >;
}

/** A line for each bundle with its five heaviest parts; empty where nothing was built. */
export function sizeLines(): readonly string[] {
  if (!existsSync(META)) return [];
  return readdirSync(META)
    .sort()
    .map((name) => {
      const meta: Metafile = JSON.parse(readFileSync(new URL(name, META), 'utf8'));
      const outputs = Object.values(meta.outputs);
      const bytes = outputs.reduce((sum, output) => sum + output.bytes, 0);
      const parts = new Map<string, number>();
      for (const { inputs } of outputs)
        for (const [path, { bytesInOutput }] of Object.entries(inputs))
          parts.set(partOf(path), (parts.get(partOf(path)) ?? 0) + bytesInOutput);
      const heaviest = [...parts]
        .sort(([, one], [, other]) => other - one)
        .slice(0, 5)
        .map(([part, size]) => `${part} ${kB(size)}`)
        .join(', ');
      return `${name.replace('.json', '').padEnd(20)} ${kB(bytes).padStart(8)}   ${heaviest}`;
    });
}

/** A package by its name, our own code by its room. */
function partOf(path: string): string {
  const inPackage = /node_modules\/((?:@[^/]+\/)?[^/]+)/.exec(path)?.[1];
  return (
    inPackage ??
    path
      .split('/')
      .slice(0, path.startsWith('server/') ? 2 : 1)
      .join('/')
  );
}

function kB(bytes: number): string {
  return `${(bytes / 1024).toFixed(0)} kB`;
}
