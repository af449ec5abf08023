// The two sides of a crossover as filters: natural roll-offs of the mains and subs, and the electrical filters before them.

import type { Gear, LowEnd, MaxLevel } from '../../schema/model/gear.ts';
import type { Speaker } from '../../schema/model/room.ts';
import { phaseLag } from '../acoustics/allPass.ts';
import type { AnalogueFilter } from '../acoustics/analogueFilter.ts';
import type { CrossoverShape } from '../acoustics/crossoverFilter.ts';
import { crossoverFilter } from '../acoustics/crossoverFilter.ts';
import { type LowEnd as NaturalLowEnd, naturalRolloff } from '../acoustics/rolloff.ts';
import type { FilterChoice } from '../setup.ts';

/** What of a loudspeaker or subwoofer the sum depends on. */
export type Ends = Pick<Gear, 'lowEnd' | 'highEnd'> & { readonly maxLevel?: MaxLevel | null };

/**
 * The natural response: what a response file tells, else the model of the stated roll-off; flat at an end that is not recorded, or
 * that no loudspeaker can have. A file of the lower end that reaches to the upper one tells of both.
 */
export function naturalOf(ends: Ends): AnalogueFilter {
  const natural = naturals.get(ends) ?? naturalFilter(ends);
  naturals.set(ends, natural);
  return natural;
}

// One pair of ends is asked for again with every choice that is summed; data sheets are never changed in place.
const naturals = new WeakMap<Ends, AnalogueFilter>();

function naturalFilter({ lowEnd, highEnd }: Ends): AnalogueFilter {
  const low = lowEnd?.response;
  const upper = highEnd && 0 < highEnd.minus6db_hz ? highEnd : null;
  const isWhole = low !== undefined && (upper?.minus6db_hz ?? 0) <= low.known_hz[1];
  const left = isWhole ? null : upper;
  const rolloff = naturalRolloff({
    low: low === undefined && lowEnd && 0 < lowEnd.minus6db_hz ? naturalLowEnd(lowEnd) : undefined,
    high:
      left && left.response === undefined
        ? { minus6db_hz: left.minus6db_hz, order: orderOf(left.slope_db_oct) }
        : undefined,
  });
  const told = [low, left?.response].flatMap((sampled) => (sampled ? [{ sampled }] : []));
  return [...told, ...rolloff];
}

/** What is known of a side's phase: from a response file, the least that such a file's level asks for, or a model's. */
export type PhaseOf = 'file' | 'minimum' | 'model';

export function phaseOf({ lowEnd, highEnd }: Ends): PhaseOf {
  if (lowEnd?.response === undefined) return 'model';
  const isWhole = (highEnd?.minus6db_hz ?? 0) <= lowEnd.response.known_hz[1];
  const parts = isWhole ? [lowEnd.response] : [lowEnd.response, highEnd?.response];
  if (parts.includes(undefined)) return 'model';
  return parts.every((part) => part?.phaseFrom === 'file') ? 'file' : 'minimum';
}

/** As the acoustics take it. */
export function naturalLowEnd({
  minus6db_hz,
  slope_db_oct,
  kind,
  protection,
}: LowEnd): NaturalLowEnd {
  return {
    minus6db_hz,
    order: orderOf(slope_db_oct),
    ...(kind ? { kind } : {}),
    ...(protection && 0 < protection.frequency_hz
      ? {
          protection: {
            frequency_hz: protection.frequency_hz,
            order: orderOf(protection.slope_db_oct),
          },
        }
      : {}),
  };
}

/** The electrical filter of one side; null where no such filter exists (a Linkwitz-Riley of 18 dB/octave, say). */
export function electrical(
  choice: FilterChoice | null,
  side: 'high_pass' | 'low_pass',
): AnalogueFilter | null {
  if (choice === null) return [];
  const shape = shapeOf(choice);
  return shape && 0 < choice.frequency_hz
    ? crossoverFilter(shape, side, choice.frequency_hz)
    : null;
}

/** Orders that exist as filters, by family. */
const ORDERS: Readonly<Record<CrossoverShape['kind'], readonly number[]>> = {
  butterworth: [1, 2, 3, 4, 5, 6, 7, 8],
  linkwitz_riley: [2, 4, 6, 8],
  bessel: [1, 2, 3, 4],
};

export function shapeOf({
  family,
  slope_db_oct,
}: Omit<FilterChoice, 'frequency_hz'>): CrossoverShape | null {
  const order = Math.round(slope_db_oct / 6);
  return ORDERS[family].includes(order) ? { kind: family, order } : null;
}

/** A phase control's lag of 0 … 2π: half a turn of it is a reversal. */
export function phaseFilter(lag_rad: number, at_hz: number): AnalogueFilter {
  const turn = 2 * Math.PI;
  const lag = ((lag_rad % turn) + turn) % turn;
  if (lag <= Math.PI) return phaseLag(lag, at_hz);
  return [...phaseLag(Math.PI, at_hz), ...phaseLag(lag - Math.PI, at_hz)];
}

/** The main whose −6 dB point is highest: it decides. undefined where none is recorded. */
export function highestMain(mains: readonly Speaker[]): (Ends & { lowEnd: LowEnd }) | undefined {
  return mains
    .flatMap(({ gear }) =>
      gear?.lowEnd && 0 < gear.lowEnd.minus6db_hz
        ? [{ lowEnd: gear.lowEnd, highEnd: gear.highEnd, maxLevel: gear.maxLevel }]
        : [],
    )
    .reduce<(Ends & { lowEnd: LowEnd }) | undefined>(
      (highest, ends) =>
        highest === undefined || highest.lowEnd.minus6db_hz < ends.lowEnd.minus6db_hz
          ? ends
          : highest,
      undefined,
    );
}

/** Natural slopes are stated in whole orders; beyond the eighth nothing is heard any more. */
function orderOf(slope_db_oct: number): number {
  return Math.min(8, Math.max(1, Math.round(slope_db_oct / 6)));
}
