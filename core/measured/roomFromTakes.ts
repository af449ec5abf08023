// The room's model fitted to takes: how much absorbs, and the sides within what the file leaves open, so that the plan meets what was measured.

import type { Room } from '../../schema/model/room.ts';
import type { Fix, SemanticEdit } from '../finding.ts';
import { lengthText } from '../rules/places.ts';
import { allAtOnce, type InSlices } from '../search/transferMap.ts';
import type { Setup } from '../setup.ts';
import { assess, type SessionEvidence, total } from './causeFit.ts';
import { evenly, type Parameter } from './causeHypothesis.ts';
import { improveInSlices } from './patternSearch.ts';
import { decayText } from './sessionDecay.ts';
import type { Variant } from './variant.ts';
import { tried } from './verified.ts';

export interface RoomFromTakes {
  readonly session: string;
  /** The takes whose bass was used. */
  readonly takes: readonly string[];
  /** Multiplies what absorbs. */
  readonly absorption_ratio: number;
  /** Added to width, depth and height. */
  readonly size_m: readonly [number, number, number];
  /** RMS deviation of the bass by sixths of an octave, each take's level taken off with the session's. */
  readonly before_db: number;
  readonly after_db: number;
  /** The edit that makes the file say so; null where nothing is worth changing. */
  readonly fix: Fix | null;
}

/** Why a room was not fitted. */
export type NotFitted = 'no field' | 'no box' | 'no takes';

const SIDES = ['width', 'depth', 'height'] as const;
/** A tape or laser measure in a finished room: common practice, no source. */
const USUAL_M = 0.01;
/** Tables and decay times leave at most so much open. Common practice, no source. */
const MOST_RATIO = 3;
/** One deviation of what is known of absorption beforehand: tables and laboratories. Common practice, no source. */
const RATIO_DEVIATION = Math.log(1.5);
/** Less than this is no change anyone would write down. */
const LEAST = { ratio: 0.05, size_m: 0.002, gain_db: 0.05 } as const;

/** @param session the first with takes of the bass where null */
export function roomFromTakes(setup: Setup, session: string | null): RoomFromTakes | NotFitted {
  return allAtOnce(roomFromTakesInSlices(setup, session));
}

/** The same a look at a time. */
export function* roomFromTakesInSlices(
  setup: Setup,
  session: string | null,
): InSlices<RoomFromTakes | NotFitted> {
  const { shape } = setup.room.space;
  if (!setup.field) return 'no field';
  if (shape?.kind !== 'box') return 'no box';
  const found = tried(setup).find(
    (one) =>
      (session === null || one.plan.session.id === session) &&
      one.data.some(({ bands }) => 0 < bands.length),
  );
  if (found === undefined) return 'no takes';
  const open_m = SIDES.map((side) => setup.room.plusMinus[`space.size.${side}`] ?? USUAL_M);
  const parameters: readonly Parameter[] = [
    { from: -Math.log(MOST_RATIO), to: Math.log(MOST_RATIO), scan: evenly(-1, 1, 5) },
    ...open_m.map((half_m) => ({ from: -half_m, to: half_m, scan: evenly(-half_m, half_m, 3) })),
  ];
  const start = [0, 0, 0, 0];
  const { values } = yield* improveInSlices((tries) => misfitAt(found, tries), start, parameters);
  const gain_db = rms_db(found, {}) - rms_db(found, variantOf(values));
  const isWorth = LEAST.gain_db <= gain_db;
  return answer(setup, found, isWorth ? values : start);
}

function variantOf([log = 0, x = 0, y = 0, z = 0]: readonly number[]): Variant {
  return { absorption_ratio: Math.exp(log), size_m: [x, y, z] };
}

/** Sides are evenly likely within what is open; absorption is known to a factor. */
function misfitAt(evidence: SessionEvidence, values: readonly number[]): number {
  const { misfit } = assess(evidence, variantOf(values));
  return total(misfit, misfit) + ((values[0] ?? 0) / RATIO_DEVIATION) ** 2;
}

function rms_db({ plan, data, places }: SessionEvidence, variant: Variant): number {
  const { residuals } = assess({ plan, data, places }, variant);
  const offs = residuals.takes.flatMap(({ bands_db }) => bands_db.filter((off) => off !== null));
  return Math.sqrt(offs.reduce((sum, off) => sum + off * off, 0) / Math.max(1, offs.length));
}

function answer(setup: Setup, evidence: SessionEvidence, values: readonly number[]): RoomFromTakes {
  const { absorption_ratio = 1, size_m = [0, 0, 0] } = variantOf(values);
  const edits = [
    ...sizeEdits(setup.room, size_m),
    ...(Math.abs(absorption_ratio - 1) < LEAST.ratio ? [] : decayEdits(setup, absorption_ratio)),
  ];
  const { id } = evidence.plan.session;
  return {
    session: id,
    takes: evidence.data
      .filter(({ bands }) => 0 < bands.length)
      .map(({ planned }) => planned.take.id),
    absorption_ratio,
    size_m,
    before_db: rms_db(evidence, {}),
    after_db: rms_db(evidence, variantOf(values)),
    fix:
      edits.length === 0
        ? null
        : { title: `Fit the room to the takes of ${id}`, edits, safe: false },
  };
}

function sizeEdits(
  { space: { shape }, plusMinus, habits }: Room,
  size_m: readonly number[],
): readonly SemanticEdit[] {
  if (shape?.kind !== 'box') return [];
  return SIDES.flatMap((side, i) => {
    const by_m = size_m[i] ?? 0;
    if (Math.abs(by_m) < LEAST.size_m) return [];
    const stated_m = plusMinus[`space.size.${side}`];
    const half = stated_m === undefined ? '' : ` ± ${Math.round(stated_m * 1000)} mm`;
    const value = `${lengthText(shape[`${side}_m`] + by_m, habits)}${half}`;
    return [{ do: 'set' as const, path: ['space', 'size', side], value }];
  });
}

/** Bass alone is fitted: higher bands stay as they are. */
const BASS_TO_HZ = 260;

function decayEdits({ space }: Setup, ratio: number): readonly SemanticEdit[] {
  const bands = space?.decayTime?.bands ?? [];
  const fitted = bands.map(({ frequency_hz, decayTime_s }) => ({
    frequency_hz,
    decayTime_s: frequency_hz <= BASS_TO_HZ ? decayTime_s / ratio : decayTime_s,
    count: 1,
  }));
  return fitted.length === 0
    ? []
    : [{ do: 'set', path: ['space', 'decay_time'], value: decayText(fitted) }];
}
