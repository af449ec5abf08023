// The command line's searches: places for subwoofers and bands for equalisers, shown, as JSON, and written into the file.

import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { createColors } from 'picocolors';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import type { Io } from '../../server/cli/io.ts';
import { run } from '../../server/cli/run.ts';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const HERON = 'rooms/heron.room.yaml';
let folder = '';

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'search-'));
  cpSync(`${ROOT}examples`, folder, { recursive: true });
});

afterAll(() => rmSync(folder, { recursive: true, force: true }));

async function groundbass(args: readonly string[], input = '') {
  const said = { out: '', err: '', told: [] as (string | null)[] };
  const io: Io = {
    cwd: folder,
    out: (text) => {
      said.out += text;
    },
    err: (text) => {
      said.err += text;
    },
    tell: (text) => {
      said.told.push(text);
    },
    readInput: async () => input,
    writeFile: async (path, text, { isNew }) =>
      writeFileSync(path, text, { flag: isNew ? 'wx' : 'w' }),
    colors: createColors(false),
    width: 100,
  };
  const code = await run(args, io);
  return { code, ...said };
}

const heron = () => readFileSync(join(folder, HERON), 'utf8');

interface Placed {
  readonly candidates: readonly {
    readonly cost_db: number;
    readonly flatness_db: number;
    readonly subwoofers: Readonly<
      Record<
        string,
        {
          readonly x_m: number;
          readonly y_m: number;
          readonly level_db: number;
          readonly delay_ms: number;
        }
      >
    >;
    readonly response: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>;
  }[];
  readonly current: { readonly cost_db: number } | null;
  readonly frequency_hz: readonly number[];
}

describe('place', () => {
  test('lists candidates, best first, beside the room as it stands, and tells how far it is', async () => {
    const { code, out, told } = await groundbass(['place', HERON, '--grid', '0.2']);
    expect(code).toBe(0);
    expect(out).toMatch(/^sub on L and R with the mains/);
    expect(out).toMatch(/as it stands: x 1\.75 m, y 0\.62 m/);
    expect(out).toMatch(/\n1: x \d\.\d\d m, y \d\.\d\d m\n/);
    expect(out).toContain('measure before anything is screwed down');
    expect(told.some((text) => text?.includes('%'))).toBe(true);
    expect(told.at(-1)).toBeNull();
  });

  test('JSON: keys that other tools rely on; no candidate worse than the room as it stands; all of them allowed', async () => {
    const { code, out } = await groundbass(['place', HERON, '--grid', '0.2', '-f', 'json']);
    expect(code).toBe(0);
    const { candidates, current, frequency_hz }: Placed = JSON.parse(out);
    expect(candidates.length).toBeGreaterThan(1);
    const costs = candidates.map(({ cost_db }) => cost_db);
    expect(costs).toEqual(costs.toSorted((a, b) => a - b));
    expect(costs[0]).toBeLessThan(current?.cost_db ?? 0);
    for (const { subwoofers, response } of candidates) {
      const { x_m = 0, y_m = 0 } = subwoofers.sub ?? {};
      // The door's way out and the walls of the example; half the smallest side of any cabinet is 0.1 m at least.
      expect(0.1 < x_m && x_m < 4.52 && 0.1 < y_m && y_m < 6.08).toBe(true);
      expect(x_m < 0.95 && 4.9 < y_m).toBe(false);
      expect(response.mix?.L?.length).toBe(frequency_hz.length);
    }
  });

  test('--near-wall keeps to the walls', async () => {
    const args = ['place', HERON, '--grid', '0.2', '--near-wall', '0.3', '--alone', '-f', 'json'];
    const { candidates }: Placed = JSON.parse((await groundbass(args)).out);
    for (const { subwoofers } of candidates) {
      const { x_m = 0, y_m = 0 } = subwoofers.sub ?? {};
      // 0.3 m and half a cabinet of less than a metre.
      expect(Math.min(x_m, 4.62 - x_m, y_m, 6.18 - y_m)).toBeLessThan(0.8);
    }
  });

  test('--apply writes one candidate: its places and the settings that belong to it, in one go', async () => {
    const before = heron();
    const args = ['place', HERON, '--grid', '0.3', '--apply', '2', '-f', 'json'];
    const { code, out } = await groundbass(args);
    expect(code).toBe(0);
    const candidate = (JSON.parse(out) as Placed).candidates[1];
    const { x_m = 0, y_m = 0, level_db = 0, delay_ms = 0 } = candidate?.subwoofers.sub ?? {};
    const want = before
      .replace(
        'at: { x: 1.75 m, y: 0.62 m, z: 0.25 m }',
        `at: { x: ${x_m.toFixed(2)} m, y: ${y_m.toFixed(2)} m, z: 0.25 m }`,
      )
      .replace(
        /(?<=polarity: inverted\n {4}level: )-?[\d.]+/,
        level_db === 0 ? '0' : level_db.toFixed(2),
      )
      .replace(/(?<=driver: \{ delay: )[\d.]+/, delay_ms === 0 ? '0' : delay_ms.toFixed(2));
    expect(heron()).toBe(want);
    expect(want).not.toBe(before);
    const again = await groundbass(['place', HERON, '--grid', '0.3', '-f', 'json']);
    // What the search promised is what the edited file comes to.
    expect((JSON.parse(again.out) as Placed).current?.cost_db).toBeCloseTo(
      candidate?.cost_db ?? 0,
      1,
    );
    writeFileSync(join(folder, HERON), before);
  });

  test('--keep-settings --apply writes x and y and nothing else', async () => {
    const before = heron();
    const args = ['place', HERON, '--grid', '0.3', '--keep-settings', '--apply', '-f', 'json'];
    const { out } = await groundbass(args);
    const { x_m = 0, y_m = 0 } = (JSON.parse(out) as Placed).candidates[0]?.subwoofers.sub ?? {};
    expect(heron()).toBe(
      before.replace(
        'at: { x: 1.75 m, y: 0.62 m, z: 0.25 m }',
        `at: { x: ${x_m.toFixed(2)} m, y: ${y_m.toFixed(2)} m, z: 0.25 m }`,
      ),
    );
    writeFileSync(join(folder, HERON), before);
  });

  test('standard input: the edited file to standard output, the candidates to standard error', async () => {
    const room = heron()
      .replace(/^policy: .*$/m, '')
      .replaceAll('gear: heath_6, ', '')
      .replaceAll('item: moor_a, ', '');
    const { code, out, err } = await groundbass(
      ['place', '-', '--grid', '0.4', '--alone', '--apply'],
      room,
    );
    expect(code, err).toBe(0);
    expect(out).toMatch(/^# A stereo mix room/);
    expect(err).toMatch(/\n1: x /);
    expect(err).toContain('the size of sub is not recorded');
  });

  test.each([
    ['more subs than can be searched', ['place', HERON, '--subs', '5'], /from 1 to 4/],
    ['an unknown sub', ['place', HERON, '--sub', 'nobody'], /no subwoofer nobody/],
    ['a grid of nothing', ['place', HERON, '--grid', '0'], /from 0.05 to 1/],
    [
      'writing copies',
      ['place', HERON, '--grid', '0.4', '--alone', '-n', '2', '--apply'],
      /add them to the file first/,
    ],
    [
      'a candidate that is not there',
      ['place', HERON, '--grid', '0.4', '--alone', '--candidates', '2', '--apply', '9'],
      /no candidate 9/,
    ],
  ])(
    '%s is misuse',
    async (_, args, want) => {
      const { code, err } = await groundbass(args);
      expect(code, err).toBe(2);
      expect(err).toMatch(want);
    },
    30_000,
  );
});

test.each(['mains', 'seat'])('place --move %s: shown, as JSON, and written', async (what) => {
  const before = heron();
  const { code, out } = await groundbass(['place', HERON, '--move', what]);
  expect(code).toBe(0);
  expect(out).toMatch(/as it stands: /);
  const args = ['place', HERON, '--move', what, '-f', 'json', '--apply'];
  const { candidates } = JSON.parse((await groundbass(args)).out);
  const key = what === 'seat' ? 'seats' : 'speakers';
  const [id, at] = Object.entries(candidates[0][key])[0] as [string, { x_m: number; y_m: number }];
  expect(heron()).toMatch(
    new RegExp(`\\n {2}${id}: .*x: ${at.x_m.toFixed(2)} m, y: ${at.y_m.toFixed(2)} m`),
  );
  writeFileSync(join(folder, HERON), before);
});

interface Fitted {
  readonly fits: readonly {
    readonly device: string;
    readonly bands: readonly {
      readonly frequency_hz: number;
      readonly gain_db: number;
      readonly q: number;
    }[];
    readonly before_db: number;
    readonly after_db: number;
    readonly headroom_db: number;
  }[];
}

describe('fit', () => {
  const fits = async (...args: readonly string[]): Promise<Fitted['fits']> => {
    const { code, out, err } = await groundbass(['fit', HERON, '-f', 'json', ...args]);
    expect(code, err).toBe(0);
    return (JSON.parse(out) as Fitted).fits;
  };

  test('bands in the steps of the device, better than before', async () => {
    const [one] = await fits();
    expect(one?.device).toBe('sub');
    expect(one?.after_db ?? 9).toBeLessThan(one?.before_db ?? 0);
    for (const { frequency_hz, gain_db, q } of one?.bands ?? []) {
      // examples/gear/subwoofers.gear.yaml: 18–250 Hz in 0.5 Hz, −15–3 dB in 0.25 dB, Q 0.5–12 in 0.1.
      expect((frequency_hz * 2) % 1).toBeCloseTo(0);
      expect(Math.abs((gain_db * 4) % 1)).toBeCloseTo(0);
      expect(Math.abs(q * 10 - Math.round(q * 10))).toBeCloseTo(0);
      expect(-15 <= gain_db && gain_db <= 3).toBe(true);
    }
  });

  test('--boost 0 costs no headroom', async () => {
    for (const { headroom_db, bands } of await fits('--boost', '0')) {
      expect(headroom_db).toBe(0);
      expect(bands.every(({ gain_db }) => gain_db < 0)).toBe(true);
    }
  });

  test('text tells what is left alone and that it is a prediction', async () => {
    const { out } = await groundbass(['fit', HERON]);
    expect(out).toMatch(/^sub sub, \d+ Hz to \d+ Hz: .* dB RMS from the target before/);
    expect(out).toMatch(/band_1: /);
    expect(out).toContain('headroom');
    expect(out).toContain('starting values until the room was measured');
  });

  test('--apply writes the bands; the file stays without faults; a second fit finds the same', async () => {
    const before = heron();
    const first = await fits('--apply');
    expect(heron()).toMatch(
      /\n {4}eq: \{ band_1: \{ frequency: [\d.]+ Hz, gain: -?[\d.]+ dB, q: [\d.]+ \}/,
    );
    expect((await groundbass(['check', HERON])).code).toBe(0);
    // What is dialled in is taken out of the response before it is fitted.
    // Predicted levels are told in hundredths of a decibel: the least step may come out the other way.
    const again = (await fits())[0]?.bands ?? [];
    expect(again.length).toBe(first[0]?.bands.length);
    again.forEach((band, i) => {
      const was = first[0]?.bands[i];
      expect(Math.abs(band.frequency_hz - (was?.frequency_hz ?? 0))).toBeLessThanOrEqual(0.5);
      expect(Math.abs(band.gain_db - (was?.gain_db ?? 0))).toBeLessThanOrEqual(0.5);
    });
    writeFileSync(join(folder, HERON), before);
  });

  test.each([
    ['an unknown device', ['fit', HERON, '--device', 'nobody'], /no device nobody/],
    ['an unknown seat', ['fit', HERON, '--seat', 'nobody'], /no seat nobody/],
    ['a boost without end', ['fit', HERON, '--boost', '40'], /from 0 to 12/],
    ['a room whose devices have none', ['fit', 'rooms/wren.room.yaml'], /equaliser/],
  ])(
    '%s is misuse',
    async (_, args, want) => {
      const { code, err } = await groundbass(args);
      expect(code, err).toBe(2);
      expect(err).toMatch(want);
    },
    60_000,
  );
});

test.each(['place', 'fit'])('the help of %s shows examples', async (verb) => {
  expect((await groundbass([verb, '--help'])).out).toMatch(/Examples:\n {2}\$ groundbass/);
});
