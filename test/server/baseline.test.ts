// `check --baseline`: what was known is left out, what is new or graver counts.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { run } from '../../server/cli/run.ts';
import { FACILITY_TEXT, GEAR_TEXT, ROOM_TEXT } from './support/facility.ts';

let folder = '';
const ROOM = 'test.room.yaml';
/** An error, and a warning or more of the geometry. */
const FAULTY = ROOM_TEXT.replace('gear: rail_2', 'gear: rail_3').replace(
  'x: 1.40 m, y: 0.89 m',
  'x: 5.40 m, y: 0.89 m',
);

beforeAll(async () => {
  folder = mkdtempSync(join(tmpdir(), 'baseline-'));
  writeFileSync(
    join(folder, 'facility.yaml'),
    FACILITY_TEXT.replace('gear/*', '*').replace('rooms/*', '*'),
  );
  writeFileSync(join(folder, 'test.gear.yaml'), GEAR_TEXT);
  write(FAULTY);
  const { out } = await check('--format', 'json');
  writeFileSync(join(folder, 'known.json'), out);
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

function write(text: string): void {
  writeFileSync(join(folder, ROOM), text);
}

async function check(...args: readonly string[]) {
  let [out, err] = ['', ''];
  const code = await run(['check', ROOM, ...args], {
    cwd: folder,
    out: (text) => {
      out += text;
    },
    err: (text) => {
      err += text;
    },
    tell: () => undefined,
    readInput: async () => '',
    writeFile: async () => undefined,
    colors: createColors(false),
    width: 100,
  });
  return { code, out, err };
}

const BASELINE = ['--baseline', 'known.json'];

test('what is known is left out, and said to be', async () => {
  expect((await check()).code).toBe(1);
  const { code, out, err } = await check(...BASELINE, '--fail-on', 'hint');
  expect(code).toBe(0);
  expect(out).toContain('no findings');
  expect(err).toMatch(/^\d+ known from known\.json, left out\n$/);
});

test('figures may move; what is new counts', async () => {
  write(
    FAULTY.replace('x: 5.40 m', 'x: 5.45 m').replace('aim: mix }\n  right', 'aim: mixx }\n  right'),
  );
  const { code, out } = await check(...BASELINE, '--format', 'json');
  write(FAULTY);
  expect(code).toBe(1);
  const errors = JSON.parse(out).files[0].findings.filter(
    (one: { severity: string }) => one.severity === 'error',
  );
  expect(errors.map((one: { code: string }) => one.code)).toEqual(['reference/seat']);
});

test('graver than before is new', async () => {
  const known = JSON.stringify({
    version: 1,
    files: [
      {
        file: ROOM,
        findings: [{ code: 'reference/gear', path: 'devices.desk.gear', severity: 'hint' }],
      },
    ],
  });
  writeFileSync(join(folder, 'milder.json'), known);
  expect((await check('--baseline', 'milder.json')).out).toContain('reference/gear');
  writeFileSync(join(folder, 'same.json'), known.replace('hint', 'error'));
  expect((await check('--baseline', 'same.json')).out).not.toContain('reference/gear');
});

test('what is no baseline is misuse', async () => {
  writeFileSync(join(folder, 'other.json'), '{"files": 3}');
  writeFileSync(join(folder, 'broken.json'), '{');
  for (const name of ['other.json', 'broken.json', 'nobody.json'])
    expect((await check('--baseline', name)).code, name).toBe(2);
});
