// What is heard of each source at each seat without the equaliser that is to be fitted: measured where it was, else predicted.

import { filterLevel_db } from '../acoustics/analogueFilter.ts';
import { equaliser } from '../acoustics/equaliser.ts';
import type { FieldFigures } from '../fieldFigures.ts';
import type { Setup } from '../setup.ts';
import type { EqStage } from './equalisers.ts';

/** The response of one source at one seat from elsewhere than the prediction, with all equalisers as the file has them. */
export interface GivenResponse {
  readonly seat: string;
  readonly source: string;
  /** On the grid of the room's field. */
  readonly level_db: readonly number[];
  /** Of how many points at the seat; one where absent. */
  readonly pointCount?: number;
}

export interface HeardResponse {
  readonly seat: string;
  readonly source: string;
  readonly level_db: readonly number[];
  readonly from: 'prediction' | 'measurement';
}

interface HeardOptions {
  /** null for all. */
  readonly seats: readonly string[] | null;
  readonly given?: readonly GivenResponse[] | undefined;
}

/** What this equaliser does as it is dialled in, dB by frequency. */
export function ownLevel_db(
  { value }: EqStage,
  frequency_hz: readonly number[],
): readonly number[] {
  const bands = value?.kind === 'eq' ? value.bands : [];
  const filter = equaliser(
    bands.flatMap(({ frequency_hz: f_hz, gain_db, q }) =>
      f_hz !== null && 0 < f_hz && gain_db !== null && q !== null && 0 < q
        ? [{ kind: 'bell' as const, frequency_hz: f_hz, gain_db, q }]
        : [],
    ),
  );
  return frequency_hz.map((f_hz) => filterLevel_db(filter, f_hz));
}

/** Each source at each seat, without this equaliser. */
export function heardOf(
  { room }: Setup,
  field: FieldFigures,
  sources: readonly string[],
  set: string | null,
  { seats, given }: HeardOptions,
  own_db: readonly number[],
): readonly HeardResponse[] {
  const wanted = new Set(seats ?? room.seats.map(({ id }) => id));
  return field.seats
    .filter(({ seat }) => wanted.has(seat))
    .flatMap(({ seat, sources: all }) =>
      sources.flatMap((source) => {
        const curve =
          all.find((one) => one.source === source && one.set === set) ??
          all.find((one) => one.source === source);
        const measured = given?.find((one) => one.seat === seat && one.source === source);
        const heard_db = measured?.level_db ?? (curve?.extremes ? curve.level_db : null);
        if (heard_db === null) return [];
        const level_db = heard_db.map((level, i) => level - (own_db[i] ?? 0));
        return [{ seat, source, level_db, from: measured ? 'measurement' : 'prediction' }];
      }),
    );
}

/** How many places the fit is to: seats, and points about them of which all sources were measured. */
export function placesOf(
  heard: readonly HeardResponse[],
  { given = [] }: Pick<HeardOptions, 'given'>,
): number {
  const seats = [...new Set(heard.map(({ seat }) => seat))];
  return seats.reduce((sum, seat) => {
    const points = given.filter((one) => one.seat === seat).map((one) => one.pointCount ?? 1);
    return sum + Math.min(...(points.length === 0 ? [1] : points));
  }, 0);
}
