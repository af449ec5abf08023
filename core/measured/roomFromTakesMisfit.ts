// How far a fitted room is off its takes, figure by figure: levels of bass in sixths of an octave, and decays.

import type { AirFigures } from '../setup.ts';
import { residualsOf } from './misfit.ts';
import { otherField } from './otherRoom.ts';
import type { SessionPlan } from './plan.ts';
import {
  type BandDecays,
  boxDampedModes,
  type DampedModes,
  decayOff,
  meshDampedModes,
} from './roomFromTakesDecay.ts';
import type { RoomLevels } from './roomFromTakesLevels.ts';
import type { TakeData } from './sessionData.ts';
import type { Variant } from './variant.ts';

/** What a room is fitted to. */
export interface BassEvidence {
  readonly plan: SessionPlan;
  readonly levels: RoomLevels;
  /** Takes with levels in the bass, and the place of each in the plan's. */
  readonly data: readonly TakeData[];
  readonly places: readonly number[];
  readonly decays: readonly BandDecays[];
  /** Levels of different takes of a session mean something against each other. */
  readonly air: AirFigures;
}

export interface Offs {
  /** Measured minus planned, dB, by take and band, what is common to a session or a take taken off. */
  readonly plain_db: readonly number[];
  /** The same in units of what is usual at their frequency against the lowest. */
  readonly bands_db: readonly number[];
  /** What each of these counts for. */
  readonly bandWeight: number;
  /** In units of their errors. */
  readonly decays: readonly number[];
}

/** Neighbouring sixths of an octave go together: two count as one. */
const BAND_WEIGHT = 0.5;
/** What a plan does not know of a room shows in all its takes alike: more of them count as so many. Our own figure. */
const MOST_TAKES = 4;

/**
 * Loudspeakers, seats and microphones are where the file says to a few centimetres only, and what that does to levels grows with
 * frequency: as much as all else from here on. Without it a fit would make a room drier than it is, for what it cannot follow it evens out.
 * Our own figure.
 */
const PLACES_FROM_HZ = 100;

function usual(frequency_hz: number): number {
  return Math.hypot(1, frequency_hz / PLACES_FROM_HZ);
}

/** null where something stands outside the variant's walls. */
export function offsOf(evidence: BassEvidence, variant: Variant): Offs | null {
  const { plan, data, places } = evidence;
  const predictions = plan.predictBass(variant);
  const { takes } = residualsOf(
    data,
    places.map((index) => predictions[index]),
    plan.frequency_hz,
  );
  const all = takes.flatMap(({ bands_db }) => bands_db);
  const plain_db = all.filter((off) => off !== null);
  if (plain_db.length < all.length) return null;
  const usuals = data.flatMap(({ bands }) => bands.map(({ frequency_hz }) => usual(frequency_hz)));
  const bands_db = plain_db.map((off, i) => off / (usuals[i] ?? 1));
  const bandWeight = BAND_WEIGHT * Math.min(1, MOST_TAKES / data.length);
  return { plain_db, bands_db, bandWeight, decays: decaysOf(evidence, variant) };
}

function decaysOf(evidence: BassEvidence, variant: Variant): readonly number[] {
  const { plan, decays } = evidence;
  const modes = 0 < decays.length ? modesOf(evidence, variant) : null;
  if (modes === null) return [];
  return decays.map((one) => decayOff(one, modes, plan.frequency_hz) ?? 0);
}

function modesOf({ plan, levels, air }: BassEvidence, variant: Variant): DampedModes | null {
  const context = otherField(plan.room, air, variant, []);
  if (context === null) return null;
  const anchor = levels.anchor();
  if (anchor === null) return boxDampedModes(context);
  return anchor.parts === null ? null : meshDampedModes(context, anchor.parts());
}

export function rms_db({ bands_db }: Offs): number {
  return Math.sqrt(
    bands_db.reduce((sum, off) => sum + off * off, 0) / Math.max(1, bands_db.length),
  );
}
