// The figures of the space: volume, areas, Schroeder frequency, background noise, modes.

import type { BackgroundFigures } from '../../core/backgroundFigures.ts';
import type { FieldMode } from '../../core/fieldFigures.ts';
import type { Setup, SpaceFigures } from '../../core/setup.ts';

export function spaceFigures({ space, field, background }: Setup): unknown {
  return {
    volume_m3: space?.volume_m3 ?? null,
    floor_area_m2: space?.floorArea_m2 ?? null,
    surface_area_m2: space?.surfaceArea_m2 ?? null,
    decay_time_s: space?.decayTime?.decayTime_s ?? null,
    nominal_decay_time_s: space?.nominalDecayTime_s ?? null,
    schroeder_hz: space?.schroeder_hz ?? null,
    background_noise: background ? noiseFigures(background) : null,
    modes: modeFigures(space, field?.modes ?? null),
  };
}

function noiseFigures(background: BackgroundFigures): unknown {
  const { from, nr, governing_hz, nrRange, nc, ncGoverning_hz, level_dba, limit_dba } = background;
  return {
    from,
    nr,
    governing_hz,
    nr_range: nrRange,
    nc,
    nc_governing_hz: ncGoverning_hz,
    level_dba,
    limit_dba,
    bands: background.bands.map(
      ({ frequency_hz, level_db, nr: ofBand, preferred_db, limit_db }) => ({
        frequency_hz,
        level_db,
        nr: ofBand,
        preferred_db,
        limit_db,
      }),
    ),
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
