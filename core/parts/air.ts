// Part of Setup: the room's air, from what the file says of it and defaults where it says nothing.

import type { Habits } from '../../schema/model/quantities.ts';
import type { AirGiven, Room } from '../../schema/model/room.ts';
import { AIR_RANGE, air, ORDINARY_AIR, speedSlope_m_s_k } from '../acoustics/air.ts';
import type { AirFigures, Note } from '../setup.ts';
import { showFor } from '../show.ts';

export interface AirPart {
  readonly air: AirFigures;
  readonly notes: readonly Note[];
}

const PATH = ['space', 'air'] as const;
const CRAMER = 'Cramer, J. Acoust. Soc. Am. 93 (1993) 2510; IEC 61094-2:2009 Annex F';
const STATED = 'speed of sound as stated in the file';
/** A step of temperature that a control room sees between morning and evening: common practice, no source. */
const STEP_K = 5;
/** Outside these the formula's polynomials mean nothing; inside AIR_RANGE they were checked. */
const USABLE = { temperature_k: [223.15, 333.15], pressure_pa: [40_000, 115_000] } as const;

/**
 * Speed of sound and density.
 *
 * @param defaultTemperature_k stands in where the file gives no temperature
 */
export function airPart(room: Pick<Room, 'air' | 'habits'>, defaultTemperature_k: number): AirPart {
  const given = room.air;
  const temperature_k = usable(given.temperature_k, USABLE.temperature_k) ?? defaultTemperature_k;
  const pressure_pa = usable(given.pressure_pa, USABLE.pressure_pa) ?? ORDINARY_AIR.pressure_pa;
  const relativeHumidity =
    usable(given.relativeHumidity, AIR_RANGE.relativeHumidity_ratio) ??
    ORDINARY_AIR.relativeHumidity_ratio;
  const state = {
    ...ORDINARY_AIR,
    temperature_k,
    pressure_pa,
    relativeHumidity_ratio: relativeHumidity,
  };
  const worked = air(state);
  const stated_m_s = given.speedOfSound_m_s;
  const isStated = stated_m_s !== null && 0 < stated_m_s;
  const assumed = given.temperature_k === null && !isStated;
  return {
    air: {
      temperature_k,
      relativeHumidity,
      pressure_pa,
      assumed,
      speedOfSound_m_s: isStated ? stated_m_s : worked.speedOfSound_m_s,
      density_kg_m3: worked.density_kg_m3,
      speedChangePer5K_m_s: STEP_K * speedSlope_m_s_k(state),
      source: isStated ? STATED : CRAMER,
    },
    notes: notes(given, temperature_k, isStated, room.habits),
  };
}

function notes(
  given: AirGiven,
  temperature_k: number,
  isStated: boolean,
  habits: Habits,
): readonly Note[] {
  const found: Note[] = [];
  const temperature = showFor(habits).temperature(temperature_k);
  if (given.temperature_k === null && !isStated) {
    found.push({ path: PATH, message: `No temperature recorded: ${temperature} is assumed` });
  }
  if (given.temperature_k !== null && given.temperature_k !== temperature_k) {
    found.push({
      path: [...PATH, 'temperature'],
      message: `No formula holds at that temperature: ${temperature} stands in`,
    });
  }
  return found;
}

function usable(value: number | null, [low, high]: readonly [number, number]): number | null {
  return value !== null && low <= value && value <= high ? value : null;
}
