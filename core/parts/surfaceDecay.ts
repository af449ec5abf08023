// Decay worked out from what covers the surfaces: Eyring's time by bands, and the decay of each mode of a box.

import { airEnergyLoss_per_m } from '../acoustics/airAbsorption.ts';
import type { BoxMode, BoxSize } from '../acoustics/boxModes.ts';
import { MATERIAL_BANDS_HZ } from '../acoustics/materials.ts';
import { decayTime_s, modalDamping_per_s, type SixSurfaces } from '../acoustics/modalDecay.ts';
import { eyring_s } from '../acoustics/reverberation.ts';
import { admittanceOf } from '../acoustics/statisticalAbsorption.ts';
import type { AirFigures } from '../setup.ts';
import { absorption_ratio, valueAt } from './coverings.ts';
import { type DecayTime, decayTimeOf } from './decayTime.ts';
import type { CoveredArea } from './surfaces.ts';

/** Names of the surfaces of which nothing is known, each once; empty where the decay can be worked out. */
export function unknownSurfaces(areas: readonly CoveredArea[]): readonly string[] {
  const unknown = areas.filter(
    ({ covering }) => covering === null || absorption_ratio(covering, 125) === null,
  );
  return [...new Set(unknown.map(({ surface }) => surface))];
}

/**
 * By Eyring's formula, for control rooms absorb too much for Sabine's; the two agree where little is absorbed.
 *
 * @returns null where a surface is not known, nothing absorbs, or all does
 */
export function surfaceDecayTime(
  areas: readonly CoveredArea[],
  volume_m3: number,
  air: AirFigures,
): DecayTime | null {
  if (areas.length === 0 || 0 < unknownSurfaces(areas).length) return null;
  const bands = MATERIAL_BANDS_HZ.flatMap((frequency_hz) => {
    const surfaces = areas.flatMap(({ area_m2, covering }) => {
      const absorption = covering && absorption_ratio(covering, frequency_hz);
      return absorption === null ? [] : [{ area_m2, absorption_ratio: absorption }];
    });
    const airLoss_per_m = airEnergyLoss_per_m(
      {
        temperature_k: air.temperature_k,
        relativeHumidity_ratio: air.relativeHumidity,
        pressure_pa: air.pressure_pa,
        co2_ratio: 0.0004, // outdoor air; of no weight for absorption
      },
      frequency_hz,
    );
    const room = { volume_m3, speedOfSound_m_s: air.speedOfSound_m_s, airLoss_per_m };
    const time_s = eyring_s(surfaces, room);
    return time_s === null ? [] : [{ frequency_hz, decayTime_s: time_s }];
  });
  return bands.length < MATERIAL_BANDS_HZ.length ? null : decayTimeOf(bands, 'surfaces');
}

/** Between these the walls' admittances are interpolated: the octave bands in which single modes are told apart. */
const MODAL_BANDS_HZ: readonly number[] = [63, 125, 250];
/** In the order that the formula wants: left, right, front, back, floor, ceiling. */
const SIX = ['left', 'right', 'front', 'back', 'floor', 'ceiling'] as const;

/**
 * Decay time of each mode of a box, wall by wall, where all six surfaces are known.
 *
 * @returns null where they are not; else a function that gives null where nothing damps the mode
 */
export function modalDecayOf(
  areas: readonly CoveredArea[],
  size: BoxSize,
  speedOfSound_m_s: number,
): ((mode: BoxMode) => number | null) | null {
  if (areas.length === 0 || 0 < unknownSurfaces(areas).length) return null;
  const walls = SIX.map((name) => ({
    frequency_hz: MODAL_BANDS_HZ,
    value: MODAL_BANDS_HZ.map((frequency_hz) => wallAdmittance_ratio(areas, name, frequency_hz)),
  }));
  return ({ order, frequency_hz }) => {
    const [left = 0, right = 0, front = 0, back = 0, floor = 0, ceiling = 0] = walls.map(
      (wall) => valueAt(wall, frequency_hz) ?? 0,
    );
    const admittances: SixSurfaces = [left, right, front, back, floor, ceiling];
    const damping_per_s = modalDamping_per_s(order, size, speedOfSound_m_s, admittances);
    return 0 < damping_per_s ? decayTime_s(damping_per_s) : null;
  };
}

/** Mean over a wall and the panels on it, by area. */
function wallAdmittance_ratio(
  areas: readonly CoveredArea[],
  wall: string,
  frequency_hz: number,
): number {
  let whole_m2 = 0;
  let weighted = 0;
  for (const { surface, area_m2, covering } of areas) {
    if (surface !== wall || covering === null) continue;
    const absorption = absorption_ratio(covering, frequency_hz) ?? 0;
    const admittance =
      covering.kind === 'admittance' ? covering.real : admittanceOf(absorption).admittance_ratio;
    whole_m2 += area_m2;
    weighted += area_m2 * admittance;
  }
  return whole_m2 === 0 ? 0 : weighted / whole_m2;
}
