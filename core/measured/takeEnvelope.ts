// The envelope of a take's planned response, where the field has one: takes at seats, as things are set.

import type { FieldCurve } from '../fieldFigures.ts';
import type { Setup } from '../setup.ts';
import type { PlannedTake } from './plan.ts';

export interface TakeEnvelope {
  readonly lower_db: readonly number[];
  readonly upper_db: readonly number[];
}

/** @returns by frequency of the field's grid; null for takes elsewhere, otherwise set, or of a part of what a channel drives */
export function envelopeOf({ field }: Setup, { take, drives }: PlannedTake): TakeEnvelope | null {
  if (!field || take.at !== null || 0 < take.bypassed.length + take.changed.length) return null;
  const seat = field.seats.find((one) => one.seat === take.seat);
  const heard = new Set(drives.map(({ drive }) => drive.source.id));
  const [first] = drives;
  if (seat === undefined || first === undefined) return null;
  const { channel, set } = first.drive;
  const curve: FieldCurve | undefined =
    heard.size === 1
      ? seat.sources.find((one) => one.source === first.drive.source.id && one.set === set)
      : seat.channels.find(
          (one) =>
            one.channel === channel &&
            one.set === set &&
            one.sources.length === heard.size &&
            one.sources.every((source) => heard.has(source)),
        );
  if (!curve?.lower_db || !curve.upper_db) return null;
  return { lower_db: curve.lower_db, upper_db: curve.upper_db };
}

/** Half its width, on another grid. */
export function halfWidth_db(
  setup: Setup,
  planned: PlannedTake,
  frequency_hz: readonly number[],
): readonly number[] | null {
  const envelope = envelopeOf(setup, planned);
  const grid_hz = setup.field?.frequency_hz ?? [];
  if (envelope === null) return null;
  let near = 0;
  return frequency_hz.map((f_hz) => {
    while (near + 1 < grid_hz.length && (grid_hz[near] ?? 0) < f_hz) near++;
    return ((envelope.upper_db[near] ?? 0) - (envelope.lower_db[near] ?? 0)) / 2;
  });
}
