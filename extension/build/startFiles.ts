// Which of a bundle's files a start reads: the entry's own, what those import, and what the entry loads at once.

import type { Metafile } from 'esbuild';

/** Sources that an entry loads by `import()` before anything is asked of it. */
export const LOADED_AT_START: readonly string[] = [
  'server/node/serveArguments.ts',
  'server/cli/io.ts',
  'server/cli/run.ts',
];

/**
 * @param entry the source that is started
 * @returns names of outputs
 */
export function startFiles({ outputs }: Metafile, entry: string): readonly string[] {
  const fileOf = new Map(
    Object.entries(outputs).flatMap(([file, { entryPoint }]) =>
      entryPoint === undefined ? [] : [[entryPoint, file] as const],
    ),
  );
  const atOnce = new Set(LOADED_AT_START.map((source) => fileOf.get(source)));
  const found = new Set<string>();
  const visit = (file: string | undefined): void => {
    const output = file === undefined ? undefined : outputs[file];
    if (file === undefined || output === undefined || found.has(file)) return;
    found.add(file);
    for (const { path, kind } of output.imports)
      if (kind !== 'dynamic-import' || atOnce.has(path)) visit(path);
  };
  visit(fileOf.get(entry));
  return [...found];
}

/** Bytes of each source in these files. */
export function bytesBySource(
  { outputs }: Metafile,
  files: readonly string[],
): ReadonlyMap<string, number> {
  const bytes = new Map<string, number>();
  for (const file of files)
    for (const [source, { bytesInOutput }] of Object.entries(outputs[file]?.inputs ?? {}))
      if (0 < bytesInOutput) bytes.set(source, (bytes.get(source) ?? 0) + bytesInOutput);
  return bytes;
}
