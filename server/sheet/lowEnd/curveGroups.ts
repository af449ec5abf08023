// Channels whose curves are one and the same, drawn once: in a symmetric room left and right come to the same at the middle seat.

import type { ChannelField, FieldFigures, SeatField } from '../../../core/fieldFigures.ts';
import { listed } from '../words.ts';

export interface CurveGroup {
  readonly set: string | null;
  /** `L and R`. */
  readonly name: string;
  readonly channels: readonly ChannelField[];
  /** Stands for all of them. */
  readonly first: ChannelField;
}

/** Nobody sees less in a chart. */
const SAME_DB = 0.1;
/** Where curves are drawn. */
export const DRAWN_HZ = { from: 20, to: 200 } as const;

/** In the order of the channels; those that play nothing here are left out. */
export function curveGroups(field: FieldFigures, seat: SeatField): readonly CurveGroup[] {
  const inside = field.frequency_hz.flatMap((f_hz, index) =>
    DRAWN_HZ.from <= f_hz && f_hz <= DRAWN_HZ.to ? [index] : [],
  );
  const groups: ChannelField[][] = [];
  for (const channel of seat.channels.filter(({ extremes }) => extremes !== null)) {
    const same = groups.find(
      ([first]) => first && first.set === channel.set && isSame(first, channel, inside),
    );
    if (same) same.push(channel);
    else groups.push([channel]);
  }
  return groups.flatMap((channels) => {
    const [first] = channels;
    const name = listed(channels.map(({ channel }) => channel));
    return first ? [{ set: first.set, name, channels, first }] : [];
  });
}

function isSame(one: ChannelField, other: ChannelField, inside: readonly number[]): boolean {
  return inside.every(
    (index) => Math.abs((one.level_db[index] ?? 0) - (other.level_db[index] ?? 0)) < SAME_DB,
  );
}

/** The group that stands for the room in one line: the one that holds the left channel, else the first. */
export function leadingGroup(groups: readonly CurveGroup[]): CurveGroup | null {
  const left = groups.find(({ channels }) => channels.some(({ channel }) => channel === 'L'));
  return left ?? groups[0] ?? null;
}

/** With the set where a room has several. */
export function groupTitle({ name, set }: CurveGroup): string {
  return set === null ? name : `${name}, set ${set}`;
}
