// Answers about the low end while something moves: the room of the open file with one thing elsewhere, or a map of it.

import { withMoved } from '../../core/parts/moveThing.ts';
import type { Analysis } from '../analysis.ts';
import type { LowEndAnswer, LowEndParams } from '../protocol/lowEnd.ts';
import type { FieldPhase } from './fieldPhase.ts';

/** null where the text has moved on, or the worker is busy with something long. */
export async function quickLowEnd(
  { setup, source }: Analysis,
  { version, ask }: Pick<LowEndParams, 'version' | 'ask'>,
  field: FieldPhase,
): Promise<LowEndAnswer | null> {
  if (setup === null || source.version !== version) return null;
  if (ask.kind === 'map') {
    const reply = await field.quick(source.uri, setup, { kind: 'map', request: ask.request });
    return reply !== null && 'map' in reply ? { field: null, map: reply.map } : null;
  }
  const moved = { ...setup, room: withMoved(setup.room, ask.thing, ask.place) };
  const reply = await field.quick(source.uri, moved, { kind: 'follow' });
  return reply !== null && 'part' in reply ? { field: reply.part.field, map: null } : null;
}
