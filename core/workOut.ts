// Work out: from a room in SI to its Setup, part by part, each recomputed only when what it depends on has changed.

import type { Room } from '../schema/model/room.ts';
import { air as airOf, ORDINARY_AIR, speedSlope_m_s_k } from './acoustics/air.ts';
import type { AirFigures, Setup } from './setup.ts';

export interface WorkOutOptions {
  /** ISO date, for acceptances and re-checks that end; null where nobody knows. */
  readonly today: string | null;
  /** Where the file gives no temperature. */
  readonly defaultTemperature_k: number;
}

/** Works rooms out; keeps the last answer of each part, so that one worker serves one file. */
export type WorkOut = (room: Room, options: WorkOutOptions) => Setup;

/** A worker for one file. */
export function createWorkOut(): WorkOut {
  return (room, options) => ({
    room,
    air: airPart(room, options),
    space: null,
    referenceSeat: room.seats.find((seat) => seat.isReference)?.id ?? null,
    seats: room.seats.map(({ id }) => ({ id, arrivals: [], angles: [] })),
    signalPaths: [],
    crossovers: [],
    layouts: [],
    boundaries: [],
    levels: {
      connections: [],
      reference: {
        stated_db: room.targets.referenceLevel?.level_db ?? null,
        weighting: room.targets.referenceLevel?.weighting ?? null,
        from: room.targets.referenceLevel ? 'room' : null,
        byChannelCount_dba: null,
        byVolume_db: null,
        channelCount: room.speakers.length,
      },
      bass: [],
      lfe: null,
      exposure: null,
    },
    power: { up: [], down: [], circuits: [] },
    advice: [],
    cautions: [],
    findings: [],
    notes: [],
  });
}

function airPart({ air }: Room, { defaultTemperature_k }: WorkOutOptions): AirFigures {
  const state = {
    temperature_k: air.temperature_k ?? defaultTemperature_k,
    relativeHumidity_ratio: air.relativeHumidity ?? ORDINARY_AIR.relativeHumidity_ratio,
    pressure_pa: air.pressure_pa ?? ORDINARY_AIR.pressure_pa,
    co2_ratio: ORDINARY_AIR.co2_ratio,
  };
  const figures = airOf(state);
  return {
    temperature_k: state.temperature_k,
    relativeHumidity: state.relativeHumidity_ratio,
    pressure_pa: state.pressure_pa,
    assumed: air.temperature_k === null,
    speedOfSound_m_s: air.speedOfSound_m_s ?? figures.speedOfSound_m_s,
    density_kg_m3: figures.density_kg_m3,
    speedChangePer5K_m_s: 5 * speedSlope_m_s_k(state),
    source: 'Cramer 1993; IEC 61094-2:2009 Annex F',
  };
}
