// Fits of equalisers as plain data for the pane: each seat before and after, what goes with it in words, and the edit that writes it.

import type { CheckedSeat } from '../../core/equaliser/checkedSeats.ts';
import type { FitBand, SeatFit } from '../../core/equaliser/fitTask.ts';
import type { HeardResponse } from '../../core/equaliser/heard.ts';
import { takesToFit } from '../../core/equaliser/measuredResponses.ts';
import type { RoomFit } from '../../core/equaliser/roomFit.ts';
import { changedText } from '../../core/record/partWords.ts';
import type { Setup } from '../../core/setup.ts';
import { type Show, showFor } from '../../core/show.ts';
import type { FoundFit, FoundFitSeat } from '../protocol/search.ts';
import { bandTexts, fitEdits, fitName, fitSummary, remarksOfFit } from '../words/fitWords.ts';
import type { DeviceFits } from './fits.ts';

export function foundFits(setup: Setup, { fits, from }: DeviceFits): readonly FoundFit[] {
  const show = showFor(setup.room.habits);
  const stale = from === null ? [] : staleText(setup, from.session);
  return fits.map((one) => toFound(one, setup, from, stale, show));
}

function toFound(
  one: RoomFit,
  setup: Setup,
  from: DeviceFits['from'],
  stale: readonly string[],
  show: Show,
): FoundFit {
  const written = isWritten(setup, one);
  return {
    device: one.device,
    name: fitName(one),
    from: from && { ...from, takes: takesOf(setup, one, from) },
    summary: fitSummary(one, show),
    bands: bandTexts(one.fit.bands),
    isWritten: written,
    seats: seatsOf(one),
    frequency_hz: one.frequency_hz,
    // Whoever has just written the bands knows what has changed.
    remarks: [...(written ? [] : stale), ...remarksOfFit(one, show)],
    edits: fitEdits([one]),
  };
}

/** Those of them that are of its own loudspeakers. */
function takesOf(
  setup: Setup,
  { sources }: RoomFit,
  { session, takes }: NonNullable<DeviceFits['from']>,
): readonly string[] {
  const own = takesToFit(setup, session)
    .filter(({ given }) => given.sounding.some((one) => sources.includes(one)))
    .map(({ given }) => given.id);
  return takes.filter((take) => own.includes(take));
}

function seatsOf({ heard, fit, target_db, checked }: RoomFit): readonly FoundFitSeat[] {
  const toFound =
    (own: readonly HeardResponse[], isFitted: boolean) =>
    (seat: SeatFit & Partial<CheckedSeat>, index: number): FoundFitSeat => ({
      seat: seat.seat,
      isFitted,
      from: own[index]?.from ?? 'prediction',
      before_db: seat.before_db,
      after_db: seat.after_db,
      beforeLevel_db: own[index]?.level_db ?? [],
      afterLevel_db: [...seat.level_db],
      target_db: seat.target_db ?? target_db,
      nulls_hz: seat.nulls.map(({ from_hz, to_hz }) => [from_hz, to_hz]),
    });
  return [
    ...fit.seats.map(toFound(heard, true)),
    ...checked.seats.map(toFound(checked.heard, false)),
  ];
}

function isWritten({ room }: Setup, { path, fit: { bands } }: RoomFit): boolean {
  const key = path.join('\n');
  const value = room.settings
    .flatMap(({ values }) => values)
    .find((one) => one.path.join('\n') === key);
  const has = value?.kind === 'eq' ? value.bands : [];
  return (
    0 < bands.length &&
    has.length === bands.length &&
    bands.every((band, i) => isNear(band, has[i] ?? NO_BAND))
  );
}

const NO_BAND = { frequency_hz: null, gain_db: null, q: null };
/** A device's steps are wider, and the file keeps three decimals. */
const SAME_RATIO = 1e-3;

function isNear(band: FitBand, has: { readonly [Key in keyof FitBand]: number | null }): boolean {
  return (['frequency_hz', 'gain_db', 'q'] as const).every(
    (key) => Math.abs(band[key] - (has[key] ?? Number.NaN)) <= SAME_RATIO * Math.abs(band[key]),
  );
}

/** Whoever fits to takes of another set-up has to know it. */
function staleText({ record }: Setup, session: string): readonly string[] {
  const own = record?.sessions.find((one) => one.session === session);
  return own?.tie === 'out_of_date'
    ? [`${changedText(own.changed)} since these takes were made: measure again if it is heard here`]
    : [];
}
