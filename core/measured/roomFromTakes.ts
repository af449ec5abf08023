// The room's model fitted to takes: how much absorbs in the bass, and the sides within what the file leaves open, so that the plan meets what was measured.
//
// Fitted together with the speed of sound, which nobody writes into a file but which moves all modes as sides do. How much absorbs gets as
// many figures as the takes bear out; what they cannot tell stays as the file has it.

import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { methodOf } from '../field/roomField.ts';
import type { Fix } from '../finding.ts';
import { allAtOnce, type InSlices } from '../search/transferMap.ts';
import type { Setup } from '../setup.ts';
import type { MeasuredSession } from './measuredFigures.ts';
import { otherField } from './otherRoom.ts';
import { sessionPlan } from './plan.ts';
import { bandDecays } from './roomFromTakesDecay.ts';
import { BASS_BANDS_HZ, openFigures } from './roomFromTakesFigures.ts';
import { fittedInSlices } from './roomFromTakesFit.ts';
import { roomLevels } from './roomFromTakesLevels.ts';
import type { BassEvidence } from './roomFromTakesMisfit.ts';
import type { AbsorptionForm } from './roomFromTakesModels.ts';
import type { Side } from './roomFromTakesSides.ts';
import { sessionData } from './sessionData.ts';
import { sessionAir } from './takeRoom.ts';
import { standing } from './verified.ts';

/** Errors are single deviations. */
export interface RoomFromTakes {
  readonly session: string;
  /** The takes whose bass was used. */
  readonly takes: readonly string[];
  /** Multiplies what absorbs in the bass: the mean of its octaves. */
  readonly absorption_ratio: number;
  /** Added to width, depth and height. */
  readonly size_m: readonly [number, number, number];
  /** RMS deviation of the bass by sixths of an octave, each take's level taken off with the session's. */
  readonly before_db: number;
  readonly after_db: number;
  /** The edit that makes the file say so; null where nothing is worth changing. */
  readonly fix: Fix | null;
  /** How many figures absorption got. */
  readonly form: AbsorptionForm;
  readonly bands: readonly FittedBand[];
  readonly sides: readonly FittedSide[];
  /** Of sound, and of walls that give way: shown beside, for no file says it. */
  readonly speed: {
    readonly ratio: number;
    readonly error_ratio: number;
    readonly isTold: boolean;
  };
  /** Octaves whose measured decay was used besides. */
  readonly decays_hz: readonly number[];
  /** How far single sixths of an octave are off such a plan at the lowest frequencies, as the fit has it. */
  readonly spread_db: number;
}

export interface FittedBand {
  readonly frequency_hz: number;
  /** Of oblique modes: a room's slower ones ring longer. */
  readonly stated_s: number;
  readonly fitted_s: number;
  readonly absorption_ratio: number;
  /** Of its logarithm. */
  readonly error_ratio: number;
  readonly isTold: boolean;
  readonly isWritten: boolean;
}

export interface FittedSide {
  readonly side: Side;
  readonly by_m: number;
  readonly error_m: number;
  /** To either side. */
  readonly open_m: number;
  readonly isTold: boolean;
  readonly isWritten: boolean;
}

/** Why a room was not fitted. */
export type NotFitted =
  | 'no field'
  | 'no takes'
  | 'other set-up'
  | 'too little bass'
  | 'undetermined';

export interface FitLimits {
  /** The highest frequency that is looked at, if lower than the usual one. */
  readonly to_hz?: number;
}

/** @param session the first with takes of the bass where null */
export function roomFromTakes(
  setup: Setup,
  session: string | null,
  limits: FitLimits = {},
): RoomFromTakes | NotFitted {
  return allAtOnce(roomFromTakesInSlices(setup, session, limits));
}

/** The same a look at a time. */
export function* roomFromTakesInSlices(
  setup: Setup,
  session: string | null,
  limits: FitLimits = {},
): InSlices<RoomFromTakes | NotFitted> {
  if (!setup.field || setup.field.frequency_hz.length === 0) return 'no field';
  const wanted = (setup.measured?.sessions ?? []).filter(
    (one) => session === null || one.session === session,
  );
  const current = standing(setup).filter((one) => wanted.includes(one));
  if (0 < wanted.length && current.length === 0) return 'other set-up';
  for (const one of current) {
    if (!one.takes.some(({ response }) => response !== null)) continue;
    yield 0;
    const evidence = bassEvidence(setup, one, limits);
    if (evidence === null || evidence.data.length === 0) continue;
    const bands = evidence.data.flatMap((take) => take.bands);
    if (bands.length < LEAST_BANDS) return 'too little bass';
    const told_hz = BASS_BANDS_HZ.filter(
      (band_hz) =>
        LEAST_IN_OCTAVE <= bands.filter((band) => isIn(band_hz, band.frequency_hz)).length ||
        evidence.decays.some(({ frequency_hz }) => frequency_hz === band_hz),
    );
    const open = openFigures(setup, evidence.air, told_hz);
    if (open === null) return 'no field';
    return yield* fittedInSlices(setup, one, evidence, open);
  }
  return 'no takes';
}

/** Two octaves of one take: fewer say nothing of a dozen figures. Our own limit. */
const LEAST_BANDS = 12;
/** Half an octave of one take. */
const LEAST_IN_OCTAVE = 3;

function isIn(band_hz: number, frequency_hz: number): boolean {
  return Math.abs(Math.log2(frequency_hz / band_hz)) <= 0.5;
}

const FROM_HZ = 20;
/** What single modes rule; a mesh costs the fourth power of its highest frequency, and is made anew a few times. */
const TO_HZ = { box: 250, 'flat ceiling': 180, 'sloped ceiling': 130 } as const;
/** Modes of control rooms are a tenth of an octave wide at 40 Hz, a twentieth at 100 Hz. */
const POINTS_PER_OCTAVE = 24;

function bassEvidence(
  setup: Setup,
  { session, takes }: MeasuredSession,
  limits: FitLimits,
): BassEvidence | null {
  const { room, field } = setup;
  const given = room.sessions?.find(({ id }) => id === session);
  if (given === undefined || !field) return null;
  const air = sessionAir(room, setup.air, given.temperature_k);
  const shape = otherField(room, air, {}, [])?.fieldRoom.shape;
  if (shape === undefined) return null;
  const to_hz = Math.min(
    TO_HZ[methodOf(shape)],
    field.frequency_hz.at(-1) ?? FROM_HZ,
    limits.to_hz ?? Number.POSITIVE_INFINITY,
  );
  const grid_hz = [...logGrid_hz(FROM_HZ, to_hz, POINTS_PER_OCTAVE)];
  const levels = roomLevels(room, air, grid_hz);
  const plan = sessionPlan(setup, given, grid_hz, levels.curvesOf);
  const found = sessionData(plan, takes, () => null);
  const heard = found.filter(({ data }) => 0 < data.bands.length);
  // Of a mesh modes are known to a little above its highest frequency only.
  const modesTo_hz = shape.box === null ? to_hz * MODES_BEYOND : Number.POSITIVE_INFINITY;
  return {
    plan,
    levels,
    air,
    data: heard.map(({ data }) => ({ ...data, arrival: null, mid: null, phases: [] })),
    places: heard.map(({ index }) => index),
    decays: bandDecays(
      found.map(({ data }) => data),
      FROM_HZ,
      modesTo_hz,
    ),
  };
}

/** As the meshes have it. */
const MODES_BEYOND = 1.1;
