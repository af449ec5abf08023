// Modes of a box room and what they say of its size; what each source drives and each seat hears of them.

import type { Point } from '../../schema/model/quantities.ts';
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
import { memoLast } from './memo.ts';

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
}

/** Without sources and seats: see `withStrengths`. null where the room holds too many modes to list. */
export function modePart(size: BoxSize, context: ModeContext): ModePart | null {
  const { speedOfSound_m_s } = context;
  if (MOST_MODES < modeCount(size, speedOfSound_m_s, LIMIT_HZ)) return null;
  const counted = boxModes(size, speedOfSound_m_s, COUNTED_HZ);
  const listed = counted.filter(({ frequency_hz }) => frequency_hz <= LIMIT_HZ);
  const verdict = bonello(counted, TOGETHER_HZ);
  return {
    modes: listed.map((mode) => figures(mode, context)),
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

function figures(mode: BoxMode, context: ModeContext): ModeFigures {
  const decayTime_s = context.decayTimeOf_s(mode);
  return {
    frequency_hz: mode.frequency_hz,
    order: mode.order,
    kind: mode.kind,
    decayTime_s,
    bandwidth_hz: decayTime_s === null ? null : modalBandwidth_hz(decayTime_s),
    drivenBy: [],
    heardAt: [],
  };
}

type Modes = readonly ModeFigures[];

/** A worker that tells how strongly each thing couples to each mode; of a thing that did not move it knows already. */
export function createStrengths(): (
  modes: Modes,
  size: BoxSize,
  sources: readonly Thing[],
  seats: readonly Thing[],
) => Modes {
  const drivenBy = couplings((source, strength) => ({ source, strength }));
  const heardAt = couplings((seat, strength) => ({ seat, strength }));
  return (modes, size, sources, seats) => {
    const driven = drivenBy(modes, size, sources);
    const heard = heardAt(modes, size, seats);
    return modes.map((mode, index): ModeFigures => {
      const { frequency_hz, order, kind, decayTime_s, bandwidth_hz } = mode;
      return {
        frequency_hz,
        order,
        kind,
        decayTime_s,
        bandwidth_hz,
        drivenBy: driven[index] ?? [],
        heardAt: heard[index] ?? [],
      };
    });
  };
}

interface Thing {
  readonly id: string;
  readonly at: Point;
}

/** @returns by mode, then thing; the very same lists again where nothing moved */
function couplings<Coupling>(
  coupling: (id: string, strength: number) => Coupling,
): (modes: Modes, size: BoxSize, things: readonly Thing[]) => readonly (readonly Coupling[])[] {
  const of = (modes: Modes, size: BoxSize, id: string, x_m: number, y_m: number, z_m: number) =>
    modes.map(({ order }) =>
      coupling(id, Math.abs(modeShape_ratio(order, size, { x_m, y_m, z_m }))),
    );
  const byMode = memoLast((...columns: readonly (readonly Coupling[])[]) => {
    const [first = []] = columns;
    return first.map((_, index) => columns.map((column) => column[index] as Coupling));
  });
  let workers = new Map<string, typeof of>();
  return (modes, size, things) => {
    workers = new Map(things.map(({ id }) => [id, workers.get(id) ?? memoLast(of)]));
    const columns = things.map(({ id, at }) => {
      const worker = workers.get(id) ?? of;
      return worker(modes, size, id, at.x_m, at.y_m, at.z_m);
    });
    return byMode(...columns);
  };
}
