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
    return space.modes.map(({ frequency_hz, order, kind, decayTime_s, bandwidth_hz }) => ({
      frequency_hz,
      order,
      kind,
      decay_time_s: decayTime_s,
      bandwidth_hz,
    }));
  if (found === null) return null;
  return found.map(({ frequency_hz, decayTime_s, bandwidth_hz }) => ({
    frequency_hz,
    order: null,
    kind: 'other',
    decay_time_s: decayTime_s,
    bandwidth_hz,
  }));
}
