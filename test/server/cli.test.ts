// The command line: exit codes, formats, keys that other tools rely on, and manners in pipes.

import { spawn, spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Io } from '../../server/cli/io.ts';
import { run } from '../../server/cli/run.ts';
import { buildCli } from '../support/buildCli.ts';
import { analysisOf, ROOM_TEXT } from './support/facility.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cli-'));
  cpSync(`${ROOT}examples`, folder, { recursive: true });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

async function groundbass(args: readonly string[], input = ''): Promise<Ran> {
  let out = '';
  let err = '';
  const io: Io = {
    cwd: folder,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    tell: () => undefined,
    readInput: async () => input,
    writeFile: async (path, text, { isNew }) =>
      writeFileSync(path, text, { flag: isNew ? 'wx' : 'w' }),
    colors: createColors(false),
    width: 100,
  };
  const code = await run(args, io);
  return { code, out, err };
}

let facility: Promise<Ran> | null = null;

/** Every room with its low end and its takes: asked for once. */
function facilityChecked(): Promise<Ran> {
  facility ??= groundbass(['check']);
  return facility;
}

describe('exit codes', () => {
  test.each([
    ['a clean room', ['check', 'rooms/heron.room.yaml'], 0],
    ['the same, asked more strictly', ['check', 'rooms/heron.room.yaml', '--fail-on', 'hint'], 1],
    ['a room with mistakes', ['check', 'rooms/cuckoo.room.yaml'], 1],
    ['the same, asked never to fail', ['check', 'rooms/cuckoo.room.yaml', '--fail-on', 'never'], 0],
    ['no such file', ['check', 'rooms/nobody.room.yaml'], 2],
    ['a file that is none of ours', ['check', 'README.md'], 2],
    ['no such verb', ['chekc'], 2],
    ['no such option', ['check', '--loud'], 2],
    ['no such format', ['check', '--format', 'pdf'], 2],
    ['a missing argument', ['figures'], 2],
    ['figures of a gear file', ['figures', 'gear/electronics.gear.yaml'], 2],
    ['no such finding', ['explain', 'layout/hieght'], 2],
    ['help', ['--help'], 0],
    ['help for a verb', ['check', '--help'], 0],
    ['the version', ['--version'], 0],
  ])('%s', async (_, args, want) => {
    writeFileSync(join(folder, 'README.md'), 'none of ours\n');
    const { code, out, err } = await groundbass(args);
    expect(code, out + err).toBe(want);
  });

  test('the whole facility', async () => {
    const { code, out, err } = await facilityChecked();
    expect(code, out + err).toBe(1);
  });
});

test.each(['check', 'figures', 'sheet', 'explain', 'new', 'schema', 'lsp'])(
  'the help of %s shows examples',
  async (verb) => {
    expect((await groundbass([verb, '--help'])).out).toMatch(/Examples:\n {2}\$ groundbass/);
  },
);

test('text shows the line with a caret under the place', async () => {
  const { out } = await groundbass(['check', '-'], ROOM_TEXT.replace('height:', 'heigth:'));
  expect(out).toMatch(
    /<stdin>:5:41 error format\/unknown-key\n {2}`heigth` is not a key of `size`; did you mean `height`\?\n {2}5 \| {3}size: .*\n {4}\| {41}\^{6}\n/,
  );
});

test('json has the keys that the page tells', async () => {
  const { out } = await groundbass(['check', 'rooms/cuckoo.room.yaml', '--format', 'json']);
  const report = JSON.parse(out);
  expect(Object.keys(report)).toEqual(['version', 'summary', 'files']);
  expect(Object.keys(report.summary)).toEqual([
    'files',
    'error',
    'warning',
    'information',
    'hint',
    'accepted',
  ]);
  expect(Object.keys(report.files[0])).toEqual(['file', 'kind', 'findings']);
  expect(report.files[0].file).toBe('rooms/cuckoo.room.yaml');
  const page = readFileSync(`${ROOT}docs/command-line.md`, 'utf8');
  for (const key of Object.keys(report.files[0].findings[0])) expect(page).toContain(key);
});

test('the editor and the command line say the same', async () => {
  const text = ROOM_TEXT.replace('height:', 'heigth:').replace('rail_2', 'rail_3');
  const { out } = await groundbass(['check', '-', '--format', 'json'], text);
  const told = JSON.parse(out).files[0].findings.filter(({ code }: { code: string }) =>
    code.startsWith('format/'),
  );
  const { remarks } = await analysisOf(text);
  expect(
    told.map(({ code, message }: { code: string; message: string }) => [code, message]),
  ).toEqual(
    remarks
      .filter(({ code }) => code.startsWith('format/'))
      .map(({ code, message }) => [code, message]),
  );
});

test('figures have exactly the keys that the page tells, and null where nothing can be known', async () => {
  const { out } = await groundbass(['figures', 'rooms/heron.room.yaml']);
  const figures = JSON.parse(out);
  expect(Object.keys(figures)).toEqual([
    'version',
    'room',
    'air',
    'space',
    'reference_seat',
    'seats',
    'low_end',
    'measured',
    'crossovers',
    'several_seats',
    'layouts',
    'reflections',
    'levels',
    'settings',
    'power',
    'record',
    'findings',
    'cautions',
    'notes',
  ]);
  // 4.62 × 6.18 × 2.94 m, by hand.
  expect(figures.space.volume_m3).toBeCloseTo(83.9417, 3);
  const arrival = figures.seats.mix.arrivals.left;
  expect(Object.keys(arrival)).toEqual([
    'distance_m',
    'flight_ms',
    'path_latency_ms',
    'path_delay_ms',
    'arrival_ms',
    'needed_delay_ms',
    'needed_delay_samples_48k',
    'dial_in',
    'residual_ms',
  ]);
  // √(1.05² + 1.82²) m, by hand.
  expect(arrival.distance_m).toBeCloseTo(2.1012, 3);
  expect(figures.seats.mix.angles.left.azimuth_deg).toBeCloseTo(29.98, 1);
  expect(figures.crossovers.sub.suggested).toHaveProperty('frequency_hz');
  const response = figures.seats.mix.response.L;
  expect(Object.keys(response)).toEqual([
    'sources',
    'frequency_hz',
    'level_db',
    'phase_deg',
    'lower_db',
    'upper_db',
    'extremes',
  ]);
  response.level_db.forEach((level_db: number, index: number) => {
    expect(response.lower_db[index]).toBeLessThanOrEqual(level_db);
    expect(level_db).toBeLessThanOrEqual(response.upper_db[index]);
  });
  expect(JSON.stringify(figures)).not.toMatch(/NaN|Infinity/);
  const { out: bare } = await groundbass(['figures', '-'], 'room: 1\nname: bare\n');
  expect(JSON.parse(bare).space).toMatchObject({
    volume_m3: null,
    schroeder_hz: null,
    modes: null,
  });
});

test('sarif has what the standard requires (OASIS SARIF 2.1.0, 3.13 and 3.27)', async () => {
  const { out } = await groundbass(['check', 'rooms/cuckoo.room.yaml', '--format', 'sarif']);
  const log = JSON.parse(out);
  expect(log.version).toBe('2.1.0');
  const [run] = log.runs;
  expect(run.tool.driver.name).toBe('groundbass');
  for (const { ruleId, ruleIndex, message, level, locations } of run.results) {
    expect(run.tool.driver.rules[ruleIndex].id).toBe(ruleId);
    expect(message.text).not.toBe('');
    expect(['error', 'warning', 'note', 'none']).toContain(level);
    const { region, artifactLocation } = locations[0].physicalLocation;
    expect(artifactLocation.uri).toBe('rooms/cuckoo.room.yaml');
    expect(region.startLine).toBeGreaterThan(0);
  }
});

test('github, junit and markdown tell each finding once', async () => {
  const count = (text: string, pattern: RegExp): number => [...text.matchAll(pattern)].length;
  const check = async (format: string) =>
    (await groundbass(['check', 'rooms/cuckoo.room.yaml', '--format', format])).out;
  const json = JSON.parse(await check('json'));
  const open = json.files[0].findings.filter(
    ({ accepted }: { accepted: unknown }) => !accepted,
  ).length;
  expect(open).toBeGreaterThan(5);
  expect(count(await check('github'), /^::(error|warning|notice) file=rooms\/cuckoo/gm)).toBe(open);
  expect(count(await check('junit'), /<failure /g)).toBe(open);
  expect(count(await check('markdown'), /^\| \d+ \|/gm)).toBe(open);
});

test('--fix takes safe fixes in the file; with standard input the text goes to standard output', async () => {
  const off = ROOM_TEXT.replace('item: plover_a', 'gear: moor_12')
    .replaceAll('tern_5', 'heath_6')
    .replace('rail_2', 'quay_8')
    .replace('frequency: 80 Hz', 'frequency: 78 Hz');
  const { out } = await groundbass(['check', '-', '--fix'], off);
  expect(out).toContain('frequency: 80 Hz');
  expect(out.split('\n')).toHaveLength(off.split('\n').length);
  const path = join(folder, 'rooms/off.room.yaml');
  writeFileSync(path, off);
  await groundbass(['check', 'rooms/off.room.yaml', '--fix']);
  expect(readFileSync(path, 'utf8')).toBe(out);
  rmSync(path);
});

test('new files are written once, and check clean', async () => {
  const one = mkdtempSync(join(tmpdir(), 'new-'));
  for (const kind of ['room', 'gear', 'facility']) {
    const args = kind === 'facility' ? ['new', kind] : ['new', kind, 'first'];
    const { out } = await groundbass([...args, '--out', '-']);
    const checked = await groundbass(['check', '-', '--fail-on', 'warning'], out);
    expect(checked.code, checked.out).toBe(0);
  }
  const again = ['new', 'facility', '--out', join(one, 'facility.yaml')];
  expect((await groundbass(again)).code).toBe(0);
  expect((await groundbass(again)).code).toBe(2);
  rmSync(one, { recursive: true });
});

test('schema prints one document that holds all that it refers to', async () => {
  for (const kind of ['room', 'gear', 'facility']) {
    const schema = JSON.parse((await groundbass(['schema', kind])).out);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    for (const [, file] of JSON.stringify(schema).matchAll(/"\$ref":"([a-z]+\.schema\.json)/g))
      expect(
        Object.values(schema.$defs).some((part) => (part as { $id?: string }).$id === file),
      ).toBe(true);
  }
});

test('explain tells every code that check can tell', async () => {
  const { out } = await facilityChecked();
  const told = [...out.matchAll(/ (?:error|warning|information|hint) ([a-z]+\/[a-z0-9-]+)/g)];
  expect(new Set(told.map(([, code]) => code)).size).toBeGreaterThan(10);
  const listed = [...(await groundbass(['explain'])).out.matchAll(/^[a-z]+\/[a-z0-9-]+/gm)];
  const codes = new Set([...told.map(([, code = '']) => code), ...listed.map(([code]) => code)]);
  expect(codes.size).toBe(listed.length);
  for (const code of codes)
    expect((await groundbass(['explain', code])).out, code).toMatch(/Why: [\s\S]*What to do: /);
});

describe('as a process', () => {
  let cli = '';
  beforeAll(async () => {
    cli = await buildCli(mkdtempSync(join(tmpdir(), 'built-cli-')));
  });
  afterAll(() => rmSync(dirname(cli), { recursive: true, force: true }));

  test('no colour in a pipe, nor with NO_COLOR; colour when forced', () => {
    const output = (environment: NodeJS.ProcessEnv): string =>
      spawnSync(process.execPath, [cli, 'check', '-'], {
        input: 'room: 1\nnmae: bare\n',
        encoding: 'utf8',
        cwd: ROOT,
        env: { ...process.env, NO_COLOR: '', FORCE_COLOR: '', ...environment },
      }).stdout;
    expect(output({})).not.toContain('\u001b[');
    expect(output({ NO_COLOR: '1', FORCE_COLOR: '1' })).not.toContain('\u001b[');
    expect(output({ FORCE_COLOR: '1' })).toContain('\u001b[');
  });

  test('a reader that goes away early is no fault', async () => {
    const child = spawn(
      process.execPath,
      [cli, 'figures', `${ROOT}examples/rooms/osprey.room.yaml`],
      { cwd: ROOT },
    );
    let err = '';
    child.stderr.on('data', (chunk: Buffer) => {
      err += chunk.toString();
    });
    child.stdout.once('data', () => child.stdout.destroy());
    const code = await new Promise((resolve) => child.once('close', resolve));
    expect(err).toBe('');
    expect(code).toBe(0);
  });
});
