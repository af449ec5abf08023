// A room's transfers to its seats, taken back out of the field's curves: for rooms whose mesh would take too long to make again.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { drivesOf, waysOf } from '../field/drives.ts';
import { sourceGroups } from '../field/sums.ts';
import { placedSources } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';

const REFERENCE_PA = 20e-6;

/**
 * @param frequency_hz the field's own grid
 * @returns from a loudspeaker's place to a seat, Pa·s/m³; null where no loudspeaker stands there or the seat has no curve
 */
export function fieldTransfer(
  { room, field }: Setup,
  frequency_hz: readonly number[],
  density_kg_m3: number,
): (from: Point3, seat: string) => ComplexResponse | null {
  if (!field) return () => null;
  const sources = placedSources(room);
  const groups = sourceGroups(drivesOf(room, waysOf(room, trace(room).paths, frequency_hz)).drives);
  return (from, seat) => {
    const source = sources.find(({ at }) => distance_m(at, from) < 1e-6);
    const group = groups.find((one) => one.source === source?.id);
    const curve = field.seats
      .find((one) => one.seat === seat)
      ?.sources.find((one) => one.source === source?.id && one.set === group?.set);
    const [only] = group?.drives ?? [];
    // Several ways to one loudspeaker cannot be told apart in its curve.
    if (!curve || only === undefined || group?.drives.length !== 1) return null;
    const { re: aRe, im: aIm } = only.pressure_pa;
    const out = {
      re: new Float64Array(frequency_hz.length),
      im: new Float64Array(frequency_hz.length),
    };
    frequency_hz.forEach((f_hz, i) => {
      const size = REFERENCE_PA * 10 ** ((curve.level_db[i] ?? 0) / 20);
      const pRe = size * Math.cos(curve.phase_rad[i] ?? 0);
      const pIm = size * Math.sin(curve.phase_rad[i] ?? 0);
      // p = G · 2A/(j f ρ), so G = j p f ρ / (2 A).
      const scale = (f_hz * density_kg_m3) / 2;
      const [a, b] = [aRe[i] ?? 1, aIm[i] ?? 0];
      const norm = a * a + b * b;
      out.re[i] = (scale * (-pIm * a + pRe * b)) / norm;
      out.im[i] = (scale * (pRe * a + pIm * b)) / norm;
    });
    return out;
  };
}
