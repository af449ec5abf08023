// The level of full-range loudspeakers in the middle band: direct sound and the room's diffuse sound.

import { distance_m, type Point3 } from '../acoustics/point.ts';
import { naturalResponse } from '../field/source.ts';
import type { Setup } from '../setup.ts';
import type { PlannedTake } from './plan.ts';
import type { Variant } from './variant.ts';

/** Where levels of full-range loudspeakers are told. @source EBU Tech 3343: 500 Hz to 2 kHz */
export const MID_HZ = [500, 2000] as const;
/** A V/T. @source Sabine's equation, 24 ln 10/c at 343 m/s */
const SABINE_S_M = 0.161;
const REFERENCE_PA = 20e-6;

/**
 * Direct sound 1/r² and diffuse sound 16π/A, re the free field at 1 m.
 *
 * @returns dB SPL; null without full-range loudspeakers, or where two of them sound at once
 * @source Kuttruff, Room Acoustics, on the reverberation distance: E = P/(4πr²c) + 4P/(cA)
 */
export function midLevel_db(
  { space }: Setup,
  { mains }: PlannedTake,
  variant: Variant,
  receiver: Point3,
): number | null {
  const [main, ...others] = mains;
  if (main === undefined || 0 < others.length) return null;
  const { source } = main.drive;
  const at = variant.places?.get(source.id) ?? source.at;
  const away_m = Math.max(0.1, distance_m(at, receiver));
  const volume_m3 = space?.volume_m3 ?? null;
  const decay_s = space?.decayTime?.decayTime_s ?? null;
  const diffuse =
    volume_m3 === null || decay_s === null
      ? 0
      : (16 * Math.PI * decay_s) / (SABINE_S_M * volume_m3);
  const free_db = passBand_dbspl(main);
  if (free_db === null) return null;
  return (
    free_db + 10 * Math.log10(1 / away_m ** 2 + diffuse) + (variant.gain_db?.get(source.id) ?? 0)
  );
}

type TakeDrive = PlannedTake['drives'][number];

/** No variant changes it. */
const kept = new WeakMap<TakeDrive, number | null>();

function passBand_dbspl(main: TakeDrive): number | null {
  const known = kept.get(main);
  if (known !== undefined) return known;
  const level_db = passBandOf_dbspl(main);
  kept.set(main, level_db);
  return level_db;
}

/** The drive's level in the pass band, from its highest frequency of the grid, where the natural roll-off is known. */
function passBandOf_dbspl({ drive: { pressure_pa, source } }: TakeDrive): number | null {
  const last = pressure_pa.re.length - 1;
  const [re, im] = [pressure_pa.re[last], pressure_pa.im[last]];
  if (re === undefined || im === undefined) return null;
  // The grid ends well above crossovers and roll-offs of full-range loudspeakers: what is left of them counts as the pass band.
  const natural = naturalResponse(source.gear, [MID_HZ[0]]);
  const gain = Math.hypot(natural.re[0] ?? 1, natural.im[0] ?? 0);
  return 20 * Math.log10((Math.hypot(re, im) * gain) / REFERENCE_PA);
}
