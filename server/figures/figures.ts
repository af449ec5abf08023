// Every computed figure of a room as plain JSON, with the unit in each key: what `groundbass figures` prints.
//
// Keys are a promise to other tools (docs/command-line.md): none is ever renamed. A figure that cannot be computed is null,
// and `notes` says why.

import type { SeatTransfer } from '../../core/fieldFigures.ts';
import type { Setup } from '../../core/setup.ts';
import { pathText } from '../../schema/model/path.ts';
import type { Remark } from '../remarks/remark.ts';
import { toMs } from './convert.ts';
import { crossoverFigures } from './crossoverFigures.ts';
import { lowEndFigures } from './fieldFigures.ts';
import { findingFigures } from './findingFigures.ts';
import {
  layoutFigures,
  levelFigures,
  reflectionFigures,
  seatDelayFigures,
} from './levelFigures.ts';
import { measuredJson } from './measuredFigures.ts';
import { recordFigures } from './recordFigures.ts';
import { seatFigures } from './seatFigures.ts';
import { spaceFigures } from './spaceFigures.ts';

export interface FiguresOptions {
  /** The grid of the responses; the low end's own where null. */
  readonly grid_hz: readonly number[] | null;
  /** The room alone, from every source to every seat; null where nobody asked. */
  readonly transfers: readonly SeatTransfer[] | null;
}

export function figures(
  setup: Setup,
  remarks: readonly Remark[],
  options: FiguresOptions = { grid_hz: null, transfers: null },
): unknown {
  return {
    version: 1,
    room: setup.room.name,
    air: {
      speed_of_sound_m_s: setup.air.speedOfSound_m_s,
      density_kg_m3: setup.air.density_kg_m3,
      temperature_k: setup.air.temperature_k,
      relative_humidity: setup.air.relativeHumidity,
      pressure_pa: setup.air.pressure_pa,
    },
    space: spaceFigures(setup),
    reference_seat: setup.referenceSeat,
    seats: Object.fromEntries(
      setup.seats.map((seat) => [seat.id, seatFigures(setup, seat, options)]),
    ),
    low_end: lowEndFigures(setup.field ?? null),
    measured: measuredJson(setup),
    crossovers: crossoverFigures(setup),
    several_seats: (setup.seatDelays ?? []).map(seatDelayFigures),
    layouts: setup.layouts.map(layoutFigures),
    reflections: reflectionFigures(setup),
    levels: levelFigures(setup),
    settings: setup.advice.map((advice) => ({
      path: pathText(advice.path),
      told: advice.told,
      exact: advice.exact,
      dial_in: advice.dialIn,
      agrees: advice.agrees,
      residual_ms: toMs(advice.residual_s),
      standing: advice.standing,
      source: advice.source,
    })),
    power: {
      up: setup.power.up.map(({ ids }) => ids),
      down: setup.power.down.map(({ ids }) => ids),
      reasons: [...setup.power.up, ...setup.power.down].map(({ reason }) => reason),
      circuits: setup.power.circuits.map((one) => ({
        circuit: one.circuit,
        rated_a: one.rated_a,
        load_a: one.load_a,
        inrush_a: one.inrush_a,
        share: one.share,
        unknown: one.unknown,
      })),
    },
    record: recordFigures(setup),
    findings: remarks.map(findingFigures),
    cautions: setup.cautions,
    notes: setup.notes.map(({ path, message }) => ({ path: pathText(path), message })),
  };
}
