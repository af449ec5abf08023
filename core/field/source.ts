// Sources as they are: free-field level and natural roll-off of a loudspeaker, and the volume velocity that stands for them.
//
// A loudspeaker is a monopole here. Its free-field pressure at 1 m in full space, A, asks for Q = 4πA/(jωρ), so that p = G Q with the
// room's transfer G. Data for half space hold one boundary, 6 dB of it, which the room's own floor or wall adds again: it is taken off.

import type { Gear, MaxLevel } from '../../schema/model/gear.ts';
import type { Connection } from '../../schema/model/room.ts';
import { filterResponse } from '../acoustics/analogueFilter.ts';
import type { ComplexResponse } from '../acoustics/complex.ts';
import { naturalOf } from '../parts/crossoverSides.ts';
import type { GovernedStage } from '../signal/governing.ts';
import type { TracedPath } from '../signal/traced.ts';

/** Natural response re the pass band: a response file's, else the model of the stated roll-off; flat where the gear file says nothing. */
export function naturalResponse(
  gear: Pick<Gear, 'lowEnd' | 'highEnd'> | null,
  frequency_hz: ArrayLike<number>,
): ComplexResponse {
  return filterResponse(gear ? naturalOf(gear) : [], frequency_hz);
}

/** A doubled pressure: what one hard boundary at the source adds. */
export const BOUNDARY_DB: number = 20 * Math.log10(2);
/** A sine's RMS value below its peak. */
const SINE_PEAK_DB: number = 10 * Math.log10(2);

/**
 * RMS level in the pass band at 1 m in full space that the greatest output amounts to, from peak levels by frequency.
 *
 * The pass band is where most comes out: lower figures at low frequencies are limits of excursion, not of the response.
 *
 * @returns dB SPL; null where no level is recorded
 */
export function fullOutput_dbspl({ distance_m, space, peak_db }: MaxLevel): number | null {
  if (peak_db.value.length === 0 || !(0 < distance_m)) return null;
  const boundary_db = space === 'half' ? BOUNDARY_DB : 0;
  return Math.max(...peak_db.value) - SINE_PEAK_DB + 20 * Math.log10(distance_m) - boundary_db;
}

/** What the level of a driver depends on besides its own gear. */
export interface Driven {
  readonly path: Pick<TracedPath, 'source' | 'target' | 'stages' | 'gain_db' | 'connections'>;
  readonly wiring: readonly Connection[];
  readonly gearOf: (id: string) => Gear | null;
}

/**
 * Free-field level at 1 m in full space, pass band, for a drive at the source's output.
 *
 * @param input_dbfs of the source's output
 * @returns dB SPL, or what is not recorded
 */
export function drivenLevel(
  driven: Driven,
  input_dbfs: number,
): { readonly level_db: number } | { readonly missing: string } {
  const { path, gearOf } = driven;
  const gear = gearOf(path.target);
  const full_db = gear?.maxLevel ? fullOutput_dbspl(gear.maxLevel) : null;
  if (full_db === null) return { missing: `the greatest level of ${path.target}` };
  const [from, ...between] = analogueDevices(driven);
  const output_v = from === undefined ? null : (gearOf(from)?.fullLevelOutput_v ?? null);
  if (output_v === null) return { missing: `the full level of ${from ?? path.source.device}` };
  const input_v = inputFor_v(path.stages, path.target) ?? gear?.fullLevelInput_v ?? null;
  if (input_v === null) return { missing: `the input of ${path.target} for full output` };
  const through_db = between.reduce((sum, id) => sum + throughGain_db(gearOf(id)), 0);
  const drive_db = input_dbfs + 20 * Math.log10(output_v / input_v) + path.gain_db + through_db;
  return { level_db: full_db + drive_db };
}

/** Devices whose voltages count, in the signal's order: from the last one that a network feeds, or from the source. */
function analogueDevices({ path, wiring }: Driven): readonly string[] {
  const hops = path.connections.flatMap((index) => wiring[index] ?? []);
  const last = hops.findLastIndex(({ from }) => from.port.includes('.'));
  return hops.slice(last + 1).map(({ from }) => from.device);
}

/** An amplifier's gain, or what a device makes of its full level; 0 dB where neither is recorded. */
function throughGain_db(gear: Gear | null): number {
  if (gear === null) return 0;
  if (gear.gain_db !== null) return gear.gain_db;
  const { fullLevelInput_v: in_v, fullLevelOutput_v: out_v } = gear;
  return in_v === null || out_v === null ? 0 : 20 * Math.log10(out_v / in_v);
}

/** The sensitivity dialled in at the last device. */
function inputFor_v(stages: readonly GovernedStage[], target: string): number | null {
  const own = stages.find(
    ({ kind, device }) => kind === 'input_sensitivity' && device === target,
  )?.value;
  return own?.kind === 'voltage' ? own.input_v : null;
}
