// Drift as long as its takes are the same: it is asked for at every version of the text, and most of them leave the record alone.

import type { MeasuredFigures } from '../measured/measuredFigures.ts';
import { drift, type RoomOfDrift } from './drift.ts';
import type { DriftFigures } from './driftFigures.ts';

/** What it rests on besides the takes: steady fields of the room, compared by identity. */
const FIELDS = ['sessions', 'policy', 'seats', 'speakers', 'subwoofers'] as const;

// The takes are never changed in place, so that an entry can neither grow stale nor outlive them.
const kept = new WeakMap<MeasuredFigures, Kept>();

interface Kept {
  readonly room: RoomOfDrift;
  readonly answer: DriftFigures | null;
}

/** As `drift`; the very same object while nothing that it rests on has changed. */
export function keptDrift(room: RoomOfDrift, measured: MeasuredFigures): DriftFigures | null {
  const last = kept.get(measured);
  if (last !== undefined && FIELDS.every((field) => last.room[field] === room[field]))
    return last.answer;
  const answer = drift(room, measured);
  kept.set(measured, { room, answer });
  return answer;
}
