// Wiring: each line `desk.main_left -> sub.in_left` as a connection, with wrong devices, ports and directions told.

import type { Path } from '../model/path.ts';
import type { Connection } from '../model/room.ts';
import { deviceAndPort, portAndChannel, type Word, wordsOfArrow } from './arrow.ts';
import { itemsOf, type Place, scalarOf } from './place.ts';
import { referPort, sideOf } from './ports.ts';
import { isFaulty, type Reading, tell } from './reading.ts';
import { referWord } from './referTo.ts';
import type { Scope } from './scope.ts';
import type { User } from './users.ts';

interface End {
  readonly user: User | null;
  readonly device: Word;
  readonly port: Word;
  readonly side: 'input' | 'output' | 'either' | null;
}

/** Connections that could be read whole. A line with a wrong word is told at the word and left out. */
export function readWiring(reading: Reading, place: Place, scope: Scope): readonly Connection[] {
  const connections: Connection[] = [];
  const seen = new Map<string, Path>();
  for (const item of itemsOf(place)) {
    const scalar = scalarOf(item);
    if (scalar === null || scalar.text === 'unknown' || isFaulty(reading, item.path)) continue;
    const words = wordsOfArrow(scalar, reading.file.text, 'wire');
    const connection = readConnection(reading, item, words, scope);
    if (connection === null) continue;
    const key = words.map(({ text }) => text).join(' -> ');
    const first = seen.get(key);
    if (first === undefined) {
      seen.set(key, item.path);
      connections.push(connection);
    } else tellTwice(reading, item, key, first);
  }
  return connections;
}

function readConnection(
  reading: Reading,
  item: Place,
  words: readonly Word[],
  scope: Scope,
): Connection | null {
  const [fromWord, toWord] = words;
  const from = fromWord === undefined ? null : deviceAndPort(fromWord);
  const to = toWord === undefined ? null : deviceAndPort(toWord);
  if (from === null || to === null) return null;
  const left = readEnd(reading, item, from, scope);
  const right = readEnd(reading, item, to, scope);
  if (!isDirected(reading, item, left, right)) return null;
  if (left.side === null || right.side === null) return null;
  return {
    index: Number(item.path.at(-1)),
    from: { device: left.device.text, port: left.port.text },
    to: { device: right.device.text, port: right.port.text },
  };
}

function readEnd(
  reading: Reading,
  item: Place,
  { device, port }: { device: Word; port: Word },
  scope: Scope,
): End {
  const isKnown = referWord(
    reading,
    { id: device.text, range: device.range, path: item.path },
    scope.userNames.any,
  );
  const user = isKnown ? (scope.users.get(device.text) ?? null) : null;
  const side = user === null ? null : sideOf(user, portAndChannel(port).port.text);
  return { user, device, port, side };
}

/** Told once a line: a port that is not there, or else an arrow against the signal. */
function isDirected(reading: Reading, item: Place, left: End, right: End): boolean {
  const leftIsThere =
    left.user === null || referPort(reading, item, left.user, left.port, 'output');
  const rightIsThere =
    right.user === null || referPort(reading, item, right.user, right.port, 'input');
  if (!leftIsThere || !rightIsThere) return false;
  const wrong = left.side === 'input' ? left : right.side === 'output' ? right : null;
  if (wrong === null) return true;
  const canSwap = left.side !== 'output' && right.side !== 'input';
  const { text } = reading.file;
  const [a, b] = [wholeOf(left), wholeOf(right)];
  tell(
    reading,
    { ...item, value: null, key: wrong.port.range },
    {
      code: 'reference/direction',
      message:
        wrong === left
          ? `\`${left.port.text}\` of \`${left.device.text}\` is an input; the arrow goes from an output to an input`
          : `\`${right.port.text}\` of \`${right.device.text}\` is an output; the arrow goes from an output to an input`,
      fixes: canSwap
        ? [
            {
              title: 'Turn the arrow round',
              edits: [
                { range: a, text: text.slice(b.start, b.end) },
                { range: b, text: text.slice(a.start, a.end) },
              ],
              safe: false,
            },
          ]
        : [],
    },
  );
  return false;
}

function wholeOf({ device, port }: End) {
  return { start: device.range.start, end: port.range.end };
}

function tellTwice(reading: Reading, item: Place, line: string, first: Path): void {
  tell(reading, item, {
    code: 'reference/wired-twice',
    severity: 'warning',
    message: `\`${line}\` stands here twice`,
    related: [{ path: first, message: 'the first one' }],
  });
}
