// The curves at every seat: each source by itself, each channel's sum, their envelopes, and how the seats differ.

import type { ComplexResponse } from '../acoustics/complex.ts';
import type { FieldCurve, SeatField, SpreadFigures } from '../fieldFigures.ts';
import type { FieldContext } from './context.ts';
import {
  type CurveContext,
  curveExtremes,
  type Envelope,
  envelopeOf,
  fieldCurve,
  pressures,
  shifted_db,
  type TransfersOf,
} from './curves.ts';
import type { DrawnTransfers } from './drawn.ts';
import type { Drive } from './drives.ts';
import { spreadOf } from './spread.ts';
import { channelGroups, levels_dbspl, sourceGroups } from './sums.ts';

/** What every source and channel comes to at every seat, with its envelope where there are draws, and how the seats differ. */
export function seatCurves(
  { fieldRoom, frequency_hz, seats }: FieldContext,
  drives: readonly Drive[],
  nominal: TransfersOf,
  draws: readonly DrawnTransfers[],
): { readonly seats: readonly SeatField[]; readonly spread: readonly SpreadFigures[] } {
  const { density_kg_m3 } = fieldRoom.medium;
  const about: CurveContext = { frequency_hz, density_kg_m3, seatCount: seats.length };
  const curvesOf = (group: readonly Drive[]) => groupCurves(group, about, nominal, draws);
  const bySource = sourceGroups(drives).map((group) => ({ group, curves: curvesOf(group.drives) }));
  const byChannel = channelGroups(drives).map((group) => ({
    group,
    curves: curvesOf(group.drives),
  }));
  return {
    seats: seats.map(({ id }, seat) => ({
      seat: id,
      sources: bySource.map(({ group: { source, set, channel }, curves }) => ({
        source,
        set,
        channel,
        ...curves.at(seat),
      })),
      channels: byChannel.map(({ group, curves }) => ({
        channel: group.channel,
        set: group.set,
        sources: [...new Set(group.drives.map(({ source }) => source.id))],
        ...curves.at(seat),
      })),
    })),
    spread: byChannel.flatMap(({ group: { channel, set }, curves }) => {
      const spread = spreadOf(frequency_hz, curves.levels);
      return spread ? [{ channel, set, ...spread }] : [];
    }),
  };
}

/** The curves of one group of drives at each seat. */
function groupCurves(
  group: readonly Drive[],
  about: CurveContext,
  nominal: TransfersOf,
  draws: readonly DrawnTransfers[],
): {
  readonly levels: readonly Float64Array[];
  readonly at: (seat: number) => FieldCurve;
} {
  const { frequency_hz } = about;
  const here = pressures(group, about, nominal);
  const levels = here.map(levels_dbspl);
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
    levels,
    at: (seat) => {
      const pressure = here[seat] as ComplexResponse;
      return fieldCurve(pressure, envelope(seat), curveExtremes(pressure, group, frequency_hz));
    },
  };
}
