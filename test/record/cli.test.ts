// `groundbass record`: what it says, what it writes, and which edit of the file's history it names.

import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { run } from '../../server/cli/run.ts';
import { BASE } from './baseRoom.ts';

const EXAMPLES = fileURLToPath(new URL('../../examples', import.meta.url));
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'record-'));
  cpSync(EXAMPLES, folder, { recursive: true });
  writeFileSync(join(folder, 'rooms/bittern.room.yaml'), BASE);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function record(...args: readonly string[]) {
  let [out, err] = ['', ''];
  const code = await run(['record', ...args], {
    cwd: folder,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    tell: () => undefined,
    readInput: async () => readFileSync(join(folder, 'rooms/bittern.room.yaml'), 'utf8'),
    writeFile: async (path, text) => writeFileSync(path, text),
    colors: createColors(false),
    width: 100,
  });
  return { code, out, err };
}

function edit(from: string, to: string): void {
  const path = join(folder, 'rooms/bittern.room.yaml');
  const text = readFileSync(path, 'utf8');
  if (!text.includes(from)) throw new RangeError(from);
  writeFileSync(path, text.replace(from, to));
}

function git(...args: readonly string[]): void {
  const who = ['-c', 'user.name=R. Ames', '-c', 'user.email=r.ames@example.invalid'];
  const { status, stderr } = spawnSync('git', [...who, ...args], { cwd: folder, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
}

test('the fingerprint alone, from a file and from standard input', async () => {
  const { code, out } = await record('rooms/bittern.room.yaml', '--fingerprint');
  expect(code).toBe(0);
  expect(out).toMatch(/^s-[0-9a-f]{4}(-[0-9a-f]{4}){4}\n$/);
  expect((await record('-', '--fingerprint')).out).toBe(out);
});

test('a room that cannot be read whole has none, and says which part is open', async () => {
  edit('width: 4.62 m,', 'width: 4.62,');
  const { code, err } = await record('rooms/bittern.room.yaml', '--fingerprint');
  edit('width: 4.62,', 'width: 4.62 m,');
  expect(code).toBe(2);
  expect(err).toContain('while the room cannot be read');
});

test('words and JSON tell the same', async () => {
  const { out } = await record('rooms/bittern.room.yaml');
  const { record: told } = JSON.parse((await record('rooms/bittern.room.yaml', '-f', 'json')).out);
  expect(out).toContain(told.fingerprint);
  expect(out.split('\n')[0]).toMatch(/^Bittern, mix room 9: /);
  for (const { session } of told.sessions) expect(out).toContain(session);
  for (const { check } of told.listening) expect(out).toContain(check);
});

test('writing fingerprints, and which edit came later', async () => {
  git('init', '-q');
  git('add', 'rooms/bittern.room.yaml', 'facility.yaml', 'gear');
  git('commit', '-q', '-m', 'as measured');
  const written = await record('rooms/bittern.room.yaml', '--write', 'autumn', 'sign_off');
  expect(written.code, written.err).toBe(0);
  git('commit', '-q', '-a', '-m', 'tie the record');
  edit('level: -3.25 dB', 'level: -4.00 dB');
  git('commit', '-q', '-a', '-m', 'the sub is louder than it should be');
  edit('x: 1.75 m, y: 0.62 m', 'x: 1.95 m, y: 0.62 m');

  const { out } = await record('rooms/bittern.room.yaml');
  expect(out).toMatch(/^.*: signed off, out of date: places and settings have changed since$/m);
  expect(out).toMatch(/autumn: .*out of date: places and settings have changed/);

  const lines = (await record('rooms/bittern.room.yaml', '--history')).out.trimEnd().split('\n');
  expect(lines.map((line) => line.replace(/^[0-9a-f]{7,} {2}[\d-]{10}/, '*'))).toEqual([
    '-  not committed  places',
    '*  the sub is louder than it should be  settings',
    '*  tie the record  as in autumn, sign_off',
    '*  as measured  first version',
  ]);
});

test('what is not there is misuse', async () => {
  expect((await record('rooms/bittern.room.yaml', '--write', 'nobody')).code).toBe(2);
  expect((await record('rooms/nobody.room.yaml')).code).toBe(2);
  expect((await record('facility.yaml')).code).toBe(2);
  expect((await record('-', '--history')).code).toBe(2);
});
