// The figures of the space: volume, areas, Schroeder frequency, modes.

import type { FieldMode } from '../../core/fieldFigures.ts';
import type { Setup, SpaceFigures } from '../../core/setup.ts';

export function spaceFigures({ space, field }: Setup): unknown {
  return {
    volume_m3: space?.volume_m3 ?? null,
    floor_area_m2: space?.floorArea_m2 ?? null,
    surface_area_m2: space?.surfaceArea_m2 ?? null,
    decay_time_s: space?.decayTime?.decayTime_s ?? null,
    nominal_decay_time_s: space?.nominalDecayTime_s ?? null,
    schroeder_hz: space?.schroeder_hz ?? null,
    modes: modeFigures(space, field?.modes ?? null),
  };
}

/** Rooms that are no box have modes without orders, from finite elements. */
function modeFigures(space: SpaceFigures | null, found: readonly FieldMode[] | null): unknown {
  if (space?.modes)
    return space.modes.map((mode) => ({ ...oneMode(mode), order: mode.order, kind: mode.kind }));
  if (found === null) return null;
  return found.map((mode) => ({ ...oneMode(mode), order: null, kind: 'other' }));
}

function oneMode({ frequency_hz, decayTime_s, bandwidth_hz, drivenBy, heardAt }: FieldMode) {
  return {
    frequency_hz,
    decay_time_s: decayTime_s,
    bandwidth_hz,
    driven_by: Object.fromEntries(drivenBy.map(({ source, strength }) => [source, strength])),
    heard_at: Object.fromEntries(heardAt.map(({ seat, strength }) => [seat, strength])),
  };
}
