// Both polarities of a subwoofer side by side: which gives more bass at the seat, by how much, where both sides count.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { PolarityFigures } from '../fieldFigures.ts';
import { rounded_db } from './curves.ts';
import type { Drive } from './drives.ts';
import { PLAYS_DB } from './extremes.ts';
import type { Remembered } from './kept.ts';
import { addPressure, channelGroups, level_dbspl, levels_dbspl, silence } from './sums.ts';

export interface AtSeat {
  readonly frequency_hz: readonly number[];
  readonly density_kg_m3: number;
  /** The room's transfer from a source to this seat; null where there is none. */
  readonly transferOf: (source: string) => ComplexResponse | null;
}

/** One entry for each subwoofer and set that shares a channel with a loudspeaker. */
export function polarities(
  drives: readonly Drive[],
  at: AtSeat,
  memory: PolarityMemory = NO_MEMORY,
): readonly PolarityFigures[] {
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
    const ways = shared.flatMap((group) =>
      group.drives.flatMap(({ source, pressure_pa }) => [pressure_pa, at.transferOf(source.id)]),
    );
    const figures = memory.whole(JSON.stringify([sub, set]), [at.frequency_hz, ...ways], () =>
      polarityOf(sub, shared, at, memory),
    );
    return figures ? [{ sub, set, ...figures }] : [];
  });
}

/** Keeps what rests on the very same drives and ways. */
export interface PolarityMemory {
  readonly whole: Remembered<Polarity | null>;
  readonly overlap: Remembered<readonly [number, number] | null>;
}

const NO_MEMORY: PolarityMemory = {
  whole: (_name, _inputs, make) => make(),
  overlap: (_name, _inputs, make) => make(),
};

/** What does not name the pair. */
export type Polarity = Omit<PolarityFigures, 'sub' | 'set'>;

function polarityOf(
  sub: string,
  shared: ReturnType<typeof channelGroups>,
  at: AtSeat,
  memory: PolarityMemory,
): Polarity | null {
  const { frequency_hz } = at;
  const both = shared.flatMap(({ channel, set, drives }) => {
    const inputs = [frequency_hz, ...drives.map(({ pressure_pa }) => pressure_pa)];
    const one = memory.overlap(JSON.stringify([sub, channel, set]), inputs, () =>
      overlap(drives, sub, frequency_hz),
    );
    return one ? [one] : [];
  });
  if (both.length === 0) return null;
  const overlap_hz = [
    Math.min(...both.map(([low_hz]) => low_hz)),
    Math.max(...both.map(([, high_hz]) => high_hz)),
  ] as const;
  const { asSet, turned } = meanPowers(shared, at, sub);
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
      asSet_db: rounded_db(asSet.map(level_dbspl)),
      turned_db: rounded_db(turned.map(level_dbspl)),
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

/** Means over the channels of the squared pressure of each one's sum, Pa²: as things are, and with the sub turned. */
function meanPowers(
  groups: ReturnType<typeof channelGroups>,
  { frequency_hz, density_kg_m3, transferOf }: AtSeat,
  sub: string,
): { readonly asSet: Float64Array; readonly turned: Float64Array } {
  const count = frequency_hz.length;
  const asSet = new Float64Array(count);
  const turned = new Float64Array(count);
  for (const { drives } of groups) {
    const [own, rest] = [silence(count), silence(count)];
    for (const drive of drives) {
      const transfer = transferOf(drive.source.id);
      const into = drive.source.id === sub ? own : rest;
      if (transfer) addPressure(into, transfer, drive, frequency_hz, density_kg_m3);
    }
    for (let i = 0; i < count; i++) {
      const [oRe, oIm] = [own.re[i] as number, own.im[i] as number];
      const [rRe, rIm] = [rest.re[i] as number, rest.im[i] as number];
      const both = rRe * rRe + rIm * rIm + oRe * oRe + oIm * oIm;
      const cross = 2 * (rRe * oRe + rIm * oIm);
      asSet[i] = (asSet[i] as number) + (both + cross) / groups.length;
      turned[i] = (turned[i] as number) + (both - cross) / groups.length;
    }
  }
  return { asSet, turned };
}
