// From drives and the room's transfers to pressure at the seats: by source, by channel.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { Drive } from './drives.ts';

const REFERENCE_PA = 20e-6;
/** No curve goes lower: JSON knows no minus infinity. */
export const LEAST_DBSPL = -100;

/**
 * Pressure at a place from one drive, p = G · 4πA/(jωρ), added onto `sum`.
 *
 * @param transfer G, Pa·s/m³
 */
export function addPressure(
  sum: ComplexResponse,
  transfer: ComplexResponse,
  { pressure_pa: a }: Drive,
  frequency_hz: readonly number[],
  density_kg_m3: number,
): void {
  for (let i = 0; i < frequency_hz.length; i++) {
    const scale = 2 / ((frequency_hz[i] as number) * density_kg_m3); // 4π/(2πfρ)
    const gRe = transfer.re[i] as number;
    const gIm = transfer.im[i] as number;
    const aRe = a.re[i] as number;
    const aIm = a.im[i] as number;
    // (g a)/j
    sum.re[i] = (sum.re[i] as number) + scale * (gRe * aIm + gIm * aRe);
    sum.im[i] = (sum.im[i] as number) - scale * (gRe * aRe - gIm * aIm);
  }
}

export function silence(length: number): ComplexResponse {
  return { re: new Float64Array(length), im: new Float64Array(length) };
}

export function levels_dbspl({ re, im }: ComplexResponse): Float64Array {
  const levels = new Float64Array(re.length);
  for (let i = 0; i < levels.length; i++)
    levels[i] = level_dbspl((re[i] as number) ** 2 + (im[i] as number) ** 2);
  return levels;
}

/** @param square_pa2 mean square pressure, Pa² */
export function level_dbspl(square_pa2: number): number {
  return Math.max(LEAST_DBSPL, 10 * Math.log10(square_pa2 / REFERENCE_PA ** 2));
}

export function phases_rad({ re, im }: ComplexResponse): Float64Array {
  return re.map((x, i) => Math.atan2(im[i] as number, x));
}

/** Groups that sound together: one a channel and set, in the order of the drives. */
export function channelGroups(drives: readonly Drive[]): readonly {
  readonly channel: string;
  readonly set: string | null;
  readonly drives: readonly Drive[];
}[] {
  return grouped(
    drives.flatMap((drive) =>
      drive.channel === null ? [] : [{ ...drive, channel: drive.channel }],
    ),
    ({ channel, set }) => JSON.stringify([channel, set]),
  ).map((members) => ({
    channel: members[0].channel,
    set: members[0].set,
    drives: members,
  }));
}

/**
 * One group a source and set: what stands for the source by itself. Where several channels drive it, the first main one does;
 * all ways of that channel count.
 */
export function sourceGroups(drives: readonly Drive[]): readonly {
  readonly source: string;
  readonly set: string | null;
  readonly channel: string | null;
  readonly drives: readonly Drive[];
}[] {
  return grouped(drives, ({ source, set }) => JSON.stringify([source.id, set])).map((members) => {
    const lead = members.find(({ isLfe }) => !isLfe) ?? members[0];
    return {
      source: lead.source.id,
      set: lead.set,
      channel: lead.channel,
      drives: members.filter(({ channel }) => channel === lead.channel),
    };
  });
}

function grouped<Thing>(
  things: readonly Thing[],
  keyOf: (thing: Thing) => string,
): readonly (readonly [Thing, ...Thing[]])[] {
  const groups = new Map<string, [Thing, ...Thing[]]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const group = groups.get(key);
    if (group) group.push(thing);
    else groups.set(key, [thing]);
  }
  return [...groups.values()];
}
