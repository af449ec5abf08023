// A room of 300 lines: the largest demo room, with listening checks added as the years bring them.

import { readFileSync } from 'node:fs';

export const LONG_ROOM_FILE: URL = new URL(
  '../../examples/rooms/osprey.room.yaml',
  import.meta.url,
);
export const LINE_COUNT = 300;

export function longRoom(): string {
  const text = readFileSync(LONG_ROOM_FILE, 'utf8').trimEnd();
  const lines = text.split('\n');
  const checks: string[] = lines.some((line) => line.startsWith('listening:'))
    ? []
    : ['listening:'];
  for (let index = 1; lines.length + checks.length < LINE_COUNT; index += 1)
    checks.push(
      `  check_${index}: { play: own loop ${index}, listen_for: one note not louder than the next, level: 79 dBC, result: good, date: 2026-11-04, by: R. Ames }`,
    );
  return `${[...lines, ...checks].join('\n')}\n`;
}

/** The same room after one more key was pressed: a digit of one speaker's place, another one each time. */
export function afterKey(text: string, count: number): string {
  const x = (1.9 + (count % 50) / 1000).toFixed(3);
  return text.replace(/(left: \{[^\n]*?at: \{ x: )[\d.]+ m/, `$1${x} m`);
}
