// Both polarities of a subwoofer side by side: which gives more bass at the seat, by how much, where both sides count.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { PolarityFigures } from '../fieldFigures.ts';
import type { Drive } from './drives.ts';
import { PLAYS_DB } from './extremes.ts';
import { addPressure, channelGroups, level_dbspl, levels_dbspl, silence } from './sums.ts';

export interface AtSeat {
  readonly frequency_hz: readonly number[];
  readonly density_kg_m3: number;
  /** The room's transfer from a source to this seat; null where there is none. */
  readonly transferOf: (source: string) => ComplexResponse | null;
}

/** One entry for each subwoofer and set that shares a channel with a loudspeaker. */
export function polarities(drives: readonly Drive[], at: AtSeat): readonly PolarityFigures[] {
  const groups = channelGroups(drives.filter(({ source }) => at.transferOf(source.id) !== null));
  const pairs = new Map<string, { readonly sub: string; readonly set: string | null }>();
  for (const { set, drives: members } of groups)
    for (const { source } of members)
      if (source.isSubwoofer) pairs.set(JSON.stringify([source.id, set]), { sub: source.id, set });
  return [...pairs.values()].flatMap(({ sub, set }) => {
    const shared = groups.filter(
      (group) =>
        group.set === set &&
        group.drives.some(({ source }) => source.id === sub) &&
        group.drives.some(({ source }) => !source.isSubwoofer),
    );
    const figures = polarityOf(sub, shared, at);
    return figures ? [{ sub, set, ...figures }] : [];
  });
}

function polarityOf(
  sub: string,
  shared: ReturnType<typeof channelGroups>,
  at: AtSeat,
): Omit<PolarityFigures, 'sub' | 'set'> | null {
  const { frequency_hz } = at;
  const both = shared.flatMap(({ drives }) => {
    const one = overlap(drives, sub, frequency_hz);
    return one ? [one] : [];
  });
  if (both.length === 0) return null;
  const overlap_hz = [
    Math.min(...both.map(([low_hz]) => low_hz)),
    Math.max(...both.map(([, high_hz]) => high_hz)),
  ] as const;
  const asSet = meanPower(shared, at, () => 1);
  const turned = meanPower(shared, at, (drive) => (drive.source.id === sub ? -1 : 1));
  const mean = (power: Float64Array) => {
    const inside = [...power].filter((_, i) => {
      const f_hz = frequency_hz[i] ?? 0;
      return overlap_hz[0] <= f_hz && f_hz <= overlap_hz[1];
    });
    return level_dbspl(inside.reduce((sum, value) => sum + value, 0) / inside.length);
  };
  return {
    channels: shared.map(({ channel }) => channel),
    overlap_hz,
    asSet_db: mean(asSet),
    turned_db: mean(turned),
    curve: {
      asSet_db: Array.from(asSet, level_dbspl),
      turned_db: Array.from(turned, level_dbspl),
    },
  };
}

/** From the lowest to the highest frequency at which sub and loudspeakers lie within 10 dB without the room; null for none. */
function overlap(
  drives: readonly Drive[],
  sub: string,
  frequency_hz: readonly number[],
): readonly [number, number] | null {
  const sum = (members: readonly Drive[]) =>
    levels_dbspl(
      members.reduce(
        (total, { pressure_pa }) => ({
          re: total.re.map((x, i) => x + (pressure_pa.re[i] ?? 0)),
          im: total.im.map((x, i) => x + (pressure_pa.im[i] ?? 0)),
        }),
        silence(frequency_hz.length),
      ),
    );
  const low = sum(drives.filter(({ source }) => source.id === sub));
  const high = sum(drives.filter(({ source }) => !source.isSubwoofer));
  const top_db = Math.max(...low, ...high);
  const inside = frequency_hz.filter((_, i) => {
    const [one, other] = [low[i] ?? 0, high[i] ?? 0];
    return Math.abs(one - other) <= PLAYS_DB && top_db - 2 * PLAYS_DB <= Math.max(one, other);
  });
  const [from_hz, to_hz] = [inside[0], inside[inside.length - 1]];
  return from_hz === undefined || to_hz === undefined ? null : [from_hz, to_hz];
}

/** Mean over the channels of the squared pressure of each one's sum, Pa². */
function meanPower(
  groups: ReturnType<typeof channelGroups>,
  { frequency_hz, density_kg_m3, transferOf }: AtSeat,
  signOf: (drive: Drive) => 1 | -1,
): Float64Array {
  const power = new Float64Array(frequency_hz.length);
  for (const { drives } of groups) {
    const sum = silence(frequency_hz.length);
    for (const drive of drives) {
      const transfer = transferOf(drive.source.id);
      if (transfer) addPressure(sum, transfer, drive, frequency_hz, density_kg_m3, signOf(drive));
    }
    for (let i = 0; i < power.length; i++)
      power[i] =
        (power[i] as number) +
        ((sum.re[i] as number) ** 2 + (sum.im[i] as number) ** 2) / groups.length;
  }
  return power;
}
