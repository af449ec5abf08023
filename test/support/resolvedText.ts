// A room file's text resolved by itself, with the codes of everything that is told.

import type { Room } from '../../schema/model/room.ts';
import { parseFile } from '../../schema/parse/parseFile.ts';
import { resolveRoom } from '../../schema/resolve/resolveRoom.ts';

export function resolvedText(text: string): {
  readonly room: Room;
  readonly codes: readonly string[];
} {
  const parsed = parseFile('room', text);
  const context = { gear: [], facility: null, defaultSampleRate_hz: null, fileExists: null };
  const { room, problems } = resolveRoom(parsed, context);
  return { room, codes: [...parsed.problems, ...problems].map(({ code }) => code) };
}
