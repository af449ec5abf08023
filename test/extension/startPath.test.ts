// What an editor or a shell waits for: the start of the server and of the command line reads nothing that only some sessions need.

import { build, type Metafile } from 'esbuild';
import { beforeAll, describe, expect, test } from 'vitest';
import { BUNDLES, buildOptions } from '../../extension/build/bundles.ts';
import { bytesBySource, startFiles } from '../../extension/build/startFiles.ts';

/** The heavy parts by what they are for, each of them loaded when it is first asked for. */
const HEAVY: readonly (readonly [what: string, where: RegExp])[] = [
  ['the setup sheet', /^server\/(sheetOf\.ts|sheet\/.*\.tsx)|node_modules\/(preact|d3-)/],
  [
    'the low end',
    /^core\/(elements\/|parts\/field\.ts|field\/(transfers|roomField)\.ts)|delaunator/,
  ],
  ['the search for places', /^core\/search\/(searchPlacement|roomPlacement)\.ts/],
  ['the EQ fit', /^core\/equaliser\/(fit|roomFit)\.ts|ml-matrix/],
  ['measuring', /^core\/measure\/(take|sweep|fourier|gearResponse)\.ts|fft\.js|wavefile/],
  ['hover and completion', /^server\/features\/(hover\.ts|completion\/completion\.ts)/],
];

async function metafileOf(name: string): Promise<{ meta: Metafile; entry: string }> {
  const bundle = BUNDLES.find((one) => one.name === name);
  if (bundle === undefined) throw new RangeError(`no bundle ${name}`);
  const { metafile } = await build({ ...buildOptions(bundle), metafile: true, write: false });
  return { meta: metafile, entry: bundle.entry };
}

describe.each(['server-node', 'cli'])('%s', (name) => {
  let meta: Metafile;
  let sources: readonly string[];
  beforeAll(async () => {
    const built = await metafileOf(name);
    meta = built.meta;
    sources = [...bytesBySource(meta, startFiles(meta, built.entry)).keys()];
  });

  test('its start is found, and is not all of it', () => {
    expect(sources).toContain(name === 'cli' ? 'server/cli/run.ts' : 'server/connect.ts');
    const all = bytesBySource(meta, Object.keys(meta.outputs));
    expect(sources.length).toBeLessThan(all.size);
  });

  test.each(HEAVY)('%s is loaded later', (_, where) => {
    const all = [...bytesBySource(meta, Object.keys(meta.outputs)).keys()];
    expect(all.filter((source) => where.test(source))).not.toEqual([]); // it is in the bundle at all
    expect(sources.filter((source) => where.test(source))).toEqual([]);
  });
});

test('the command line reads no verb before it is asked for', async () => {
  const { meta, entry } = await metafileOf('cli');
  const sources = [...bytesBySource(meta, startFiles(meta, entry)).keys()];
  expect(sources.filter((source) => /^(core|schema)\/|cli\/verbs/.test(source))).toEqual([]);
});
