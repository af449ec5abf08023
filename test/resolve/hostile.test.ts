// Files that nobody would write are still answered, in bounded time.

import { expect, test } from 'vitest';
import { resolveText } from './small.ts';

/** A cost that grows with the square of the file would go far beyond it. */
const LIMIT_MS = 60_000;

test('thousands of wires between things that are not there', () => {
  const devices = Array.from({ length: 3000 }, (_, n) => `  d${n}: { gear: quay_8 }`);
  const wires = Array.from({ length: 4500 }, (_, n) => `  - x${n}.main_left -> y${n}.in_left`);
  const start = performance.now();
  const { problems, room } = resolveText(
    `\ndevices:\n${devices.join('\n')}\nwiring:\n${wires.join('\n')}\n`,
  );
  expect(performance.now() - start).toBeLessThan(LIMIT_MS);
  expect(room.devices).toHaveLength(3000);
  expect(problems.at(-1)?.message).toBe('8500 more problems are not shown');
});

test('names that reach into the program', () => {
  const { problems, room } = resolveText(`
speakers: { left: { gear: constructor, channel: __proto__, at: unknown, aim: toString } }
settings: { hasOwnProperty: { level: 0 dB } }
targets: { tolerances: { height: 1 m } }
`);
  expect(room.speakers[0]?.gear).toBeNull();
  expect(problems.map(({ code }) => code)).toEqual([
    'reference/gear',
    'reference/channel',
    'reference/seat',
    'reference/device',
  ]);
});
