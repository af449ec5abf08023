// The second phase: a Setup with the room's low end worked out, and what is asked of the field besides: transfers, pressure maps.

import { cumulativeDecay } from './field/cumulativeDecay.ts';
import { createFieldMaps, type FieldMaps, fieldMap } from './field/fieldMap.ts';
import { roomTransfers } from './field/roomTransfers.ts';
import type {
  FieldDecay,
  FieldDecayRequest,
  FieldMap,
  FieldMapRequest,
  SeatTransfer,
} from './fieldFigures.ts';
import { createFieldWork } from './parts/field.ts';
import { createJudge } from './rules/judge.ts';
import type { RunOptions } from './rules/run.ts';
import type { Setup } from './setup.ts';

export interface WithFieldOptions extends RunOptions {
  /** Left out where curves must follow a hand: four to ten times as quick. Default true. */
  readonly envelope?: boolean;
}

/** One worker for one file: what has not changed since the last call is not worked out again. */
export type WithField = (setup: Setup, options: WithFieldOptions) => Setup;

/** A worker that adds the field, its notes, and the findings that it brings. */
export function createWithField(): WithField {
  const work = createFieldWork();
  const judge = createJudge();
  return (setup, options) => {
    const { field, notes } = work(setup, { envelope: options.envelope ?? true });
    const all = [...setup.notes, ...notes, ...(field?.notes ?? [])];
    return judge({ ...setup, field, notes: all }, { today: options.today });
  };
}

/** The same once, with nothing kept. */
export function withField(setup: Setup, options: WithFieldOptions): Setup {
  return createWithField()(setup, options);
}

/**
 * The room alone, from every source to every seat.
 *
 * @param frequency_hz ascending, > 0
 * @returns by seat, then source; places that have no field are left out; empty where the room has no size
 */
export function transfers(setup: Setup, frequency_hz: readonly number[]): readonly SeatTransfer[] {
  return roomTransfers(setup, frequency_hz);
}

/** Pressure over the plan; null where the room has no size, or nothing of that name sounds in it. */
export function pressureOverPlan(setup: Setup, request: FieldMapRequest): FieldMap | null {
  return fieldMap(setup, request);
}

/** A worker for one file: maps at many frequencies, sharing what does not change between them. */
export function createPressureMaps(): FieldMaps {
  return createFieldMaps();
}

/** How the bass fades at a seat; null where the room has no size, or nothing of that name sounds in it. */
export function decayAtSeat(setup: Setup, request: FieldDecayRequest): FieldDecay | null {
  return cumulativeDecay(setup, request);
}
