// The figures of the space: volume, areas, Schroeder frequency, modes.

import type { SpaceFigures } from '../../core/setup.ts';

export function spaceFigures(space: SpaceFigures | null): unknown {
  return {
    volume_m3: space?.volume_m3 ?? null,
    floor_area_m2: space?.floorArea_m2 ?? null,
    surface_area_m2: space?.surfaceArea_m2 ?? null,
    decay_time_s: space?.decayTime?.decayTime_s ?? null,
    nominal_decay_time_s: space?.nominalDecayTime_s ?? null,
    schroeder_hz: space?.schroeder_hz ?? null,
    modes:
      space?.modes?.map(({ frequency_hz, order, kind, decayTime_s, bandwidth_hz }) => ({
        frequency_hz,
        order,
        kind,
        decay_time_s: decayTime_s,
        bandwidth_hz,
      })) ?? null,
  };
}
