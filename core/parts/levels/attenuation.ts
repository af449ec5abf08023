// Attenuation: how far each main lies above the reference level with nothing turned down, and how much of it is taken away as numbers.

import type { Gear } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import type { Attenuation } from '../../levelFigures.ts';
import { type Driven, fullScale_db, leading } from './driven.ts';
import { PEAK_DB } from './wanted.ts';

/** Devices that hold the signal as numbers. */
const DIGITAL: ReadonlySet<Gear['kind']> = new Set(['interface', 'processor']);

/**
 * One entry a main and set; empty without a reference level.
 *
 * The calibration noise lies `PEAK_DB` below full scale. A monitor controller on the way can take the surplus as voltage; without
 * one it is the source's own control that does, as numbers.
 */
export function attenuations(
  { devices }: Pick<Room, 'devices'>,
  ways: readonly Driven[],
  reference_db: number | null,
): readonly Attenuation[] {
  if (reference_db === null) return [];
  const kinds = new Map(devices.map(({ id, gear }) => [id, gear?.kind ?? null]));
  return leading(ways).flatMap((way): readonly Attenuation[] => {
    const { path, source } = way;
    const full_db = fullScale_db(way);
    if (full_db === null || source.isSubwoofer || path.isLfe) return [];
    const surplus_db = full_db - PEAK_DB - reference_db;
    const trims_db = path.stages.reduce((sum_db, { device, kind, value }) => {
      const of = kinds.get(device) ?? null;
      const isTrim = (kind === 'level' || kind === 'gain') && value?.kind === 'level';
      if (!isTrim || of === null || !DIGITAL.has(of)) return sum_db;
      return sum_db + Math.max(0, -value.level_db);
    }, 0);
    const on = [path.source.device, ...path.stages.map(({ device }) => device)];
    const hasControl = on.some((id) => kinds.get(id) === 'controller');
    const digital_db = trims_db + (hasControl ? 0 : Math.max(0, surplus_db));
    return [{ target: source.id, set: path.set, surplus_db, trims_db, digital_db }];
  });
}
