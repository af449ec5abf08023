// Modes of a box room with what each source drives and each seat hears of them, and what they say of the room's size.

import { bonello } from '../acoustics/bonello.ts';
import {
  type BoxMode,
  type BoxSize,
  boxModes,
  coincidences,
  modeCount,
  modeDensity_per_hz,
  modeShape_ratio,
} from '../acoustics/boxModes.ts';
import { modalBandwidth_hz } from '../acoustics/modalDecay.ts';
import type { ModeFigures, SpaceFigures } from '../setup.ts';
import type { placedSeats, placedSources } from './referenceSeat.ts';

/** Modes are listed to here; above it they are too many to be told apart in rooms of this trade. */
const LIMIT_HZ = 200;
/** Upper edge of the 200 Hz third octave, to which Bonello's criterion counts. */
const COUNTED_HZ = 225;
/** A hall's thousands of modes would help nobody and take the time of a keystroke. */
const MOST_MODES = 4000;
/** Nearer than this two modes count as one: a centimetre in 5 m moves a mode at 50 Hz by 0.1 Hz. */
const TOGETHER_HZ = 0.1;

export type ModePart = Pick<
  SpaceFigures,
  'modes' | 'modeCount' | 'modeDensityAt100Hz_per_hz' | 'coincidences' | 'bonello'
>;

export const NO_MODES: ModePart = {
  modes: null,
  modeCount: null,
  modeDensityAt100Hz_per_hz: null,
  coincidences: [],
  bonello: null,
};

export interface ModeContext {
  readonly speedOfSound_m_s: number;
  /** Decay time of a mode; null where nothing is known. */
  readonly decayTimeOf_s: (mode: BoxMode) => number | null;
  readonly sources: ReturnType<typeof placedSources>;
  readonly seats: ReturnType<typeof placedSeats>;
}

/** null where the room holds too many modes to list. */
export function modePart(size: BoxSize, context: ModeContext): ModePart | null {
  const { speedOfSound_m_s } = context;
  if (MOST_MODES < modeCount(size, speedOfSound_m_s, LIMIT_HZ)) return null;
  const counted = boxModes(size, speedOfSound_m_s, COUNTED_HZ);
  const listed = counted.filter(({ frequency_hz }) => frequency_hz <= LIMIT_HZ);
  const verdict = bonello(counted, TOGETHER_HZ);
  return {
    modes: listed.map((mode) => figures(mode, size, context)),
    modeCount: {
      limit_hz: LIMIT_HZ,
      exact: listed.length,
      formula: modeCount(size, speedOfSound_m_s, LIMIT_HZ),
    },
    modeDensityAt100Hz_per_hz: modeDensity_per_hz(size, speedOfSound_m_s, 100),
    coincidences: coincidences(listed, TOGETHER_HZ).map((group) => ({
      frequency_hz: group.reduce((sum, { frequency_hz }) => sum + frequency_hz, 0) / group.length,
      orders: group.map(({ order }) => order),
    })),
    bonello: {
      bands: verdict.bands.map(({ nominal_hz, modeCount: count, falls, coincident }) => ({
        frequency_hz: nominal_hz,
        count,
        falls,
        coincident: 0 < coincident.length,
      })),
      risesThroughout: verdict.rises,
      coincidencesCovered: verdict.covered,
    },
  };
}

function figures(mode: BoxMode, size: BoxSize, context: ModeContext): ModeFigures {
  const decayTime_s = context.decayTimeOf_s(mode);
  return {
    frequency_hz: mode.frequency_hz,
    order: mode.order,
    kind: mode.kind,
    decayTime_s,
    bandwidth_hz: decayTime_s === null ? null : modalBandwidth_hz(decayTime_s),
    drivenBy: context.sources.map(({ id, at }) => ({
      source: id,
      strength: Math.abs(modeShape_ratio(mode.order, size, at)),
    })),
    heardAt: context.seats.map(({ id, at }) => ({
      seat: id,
      strength: Math.abs(modeShape_ratio(mode.order, size, at)),
    })),
  };
}
