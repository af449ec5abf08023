// The curves at every seat: each source by itself, each channel's sum, their envelopes, and how the seats differ.

import type { FieldCurve, SeatField, SpreadFigures } from '../fieldFigures.ts';
import type { FieldContext } from './context.ts';
import {
  type CurveContext,
  type Envelope,
  envelopeOf,
  fieldCurve,
  freeLevels_dbspl,
  pressures,
  shifted_db,
  type TransfersOf,
} from './curves.ts';
import type { DrawnTransfers } from './drawn.ts';
import type { Drive } from './drives.ts';
import { extremesOf } from './extremes.ts';
import type { Remembered } from './kept.ts';
import { spreadOf } from './spread.ts';
import { channelGroups, levels_dbspl, sourceGroups } from './sums.ts';

/** The room's ways to the seats: as things stand, and in the draws that make the envelope. */
export interface Heard {
  readonly nominal: TransfersOf;
  readonly draws: readonly DrawnTransfers[];
}

/** What every source and channel comes to at every seat, with its envelope where there are draws, and how the seats differ. */
export function seatCurves(
  { fieldRoom, frequency_hz, seats }: FieldContext,
  drives: readonly Drive[],
  { nominal, draws }: Heard,
  remember: Remembered<GroupCurves> = (_name, _inputs, make) => make(),
): { readonly seats: readonly SeatField[]; readonly spread: readonly SpreadFigures[] } {
  const { density_kg_m3 } = fieldRoom.medium;
  const about: CurveContext = { frequency_hz, density_kg_m3, seatCount: seats.length };
  // What a group's curves rest on: its drives, and the room's way from each to the seats, by themselves and in every draw.
  const curvesOf = (name: readonly (string | null)[], group: readonly Drive[]) => {
    const ways = group.flatMap(({ pressure_pa, source: { id } }) => [
      pressure_pa,
      nominal(id),
      ...draws.flatMap(({ of, shift_ratio }) => [of(id), shift_ratio]),
    ]);
    const inputs = [frequency_hz, density_kg_m3, seats.length, ...ways];
    return remember(JSON.stringify(name), inputs, () => groupCurves(group, about, nominal, draws));
  };
  const bySource = sourceGroups(drives).map((group) => ({
    group,
    curves: curvesOf(['source', group.source, group.set], group.drives),
  }));
  const byChannel = channelGroups(drives).map((group) => ({
    group,
    curves: curvesOf(['channel', group.channel, group.set], group.drives),
  }));
  return {
    seats: seats.map(({ id }, seat) => ({
      seat: id,
      sources: bySource.map(({ group: { source, set, channel }, curves }) => ({
        source,
        set,
        channel,
        ...(curves.curves[seat] as FieldCurve),
      })),
      channels: byChannel.map(({ group, curves }) => ({
        channel: group.channel,
        set: group.set,
        sources: [...new Set(group.drives.map(({ source }) => source.id))],
        ...(curves.curves[seat] as FieldCurve),
      })),
    })),
    spread: byChannel.flatMap(({ group: { channel, set }, curves: { spread } }) =>
      spread ? [{ channel, set, ...spread }] : [],
    ),
  };
}

/** The curves of one group of drives at each seat, and how the seats differ. */
export interface GroupCurves {
  readonly spread: ReturnType<typeof spreadOf>;
  readonly curves: readonly FieldCurve[];
}

function groupCurves(
  group: readonly Drive[],
  about: CurveContext,
  nominal: TransfersOf,
  draws: readonly DrawnTransfers[],
): GroupCurves {
  const { frequency_hz } = about;
  const here = pressures(group, about, nominal);
  const levels = here.map(levels_dbspl);
  const free_db = freeLevels_dbspl(group, frequency_hz.length);
  const drawn = draws.map(({ of, shift_ratio }) =>
    pressures(group, about, of).map((pressure) =>
      shift_ratio === 1
        ? levels_dbspl(pressure)
        : shifted_db(frequency_hz, levels_dbspl(pressure), shift_ratio),
    ),
  );
  const envelope = (seat: number): Envelope | null =>
    draws.length === 0
      ? null
      : envelopeOf([...drawn, levels].flatMap((bySeat) => bySeat[seat] ?? []));
  return {
    spread: spreadOf(frequency_hz, levels),
    curves: here.map((pressure, seat) =>
      fieldCurve(
        pressure,
        envelope(seat),
        extremesOf(frequency_hz, levels[seat] as Float64Array, free_db),
      ),
    ),
  };
}
