// How long a subwoofer waits for the mains at each place where it may stand, and which polarity the crossover leaves open.
//
// Searched freely, a delay of many milliseconds can flatten what the model says of one seat; the direct sound of mains and sub
// would then come apart. So a place is judged with the delay that belongs to it, and the search chooses among what is left.

import type { Steps } from '../../schema/model/gear.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type { Room } from '../../schema/model/room.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { referenceSeat } from '../parts/referenceSeat.ts';
import type { CrossoverFigures } from '../setup.ts';
import { type Heard, heardAt, ways } from '../signal/heard.ts';
import { nearestStep } from '../signal/steps.ts';
import type { TracedPath } from '../signal/traced.ts';

export interface SubAlignment {
  /** How long the sub waits at a place, in its device's steps; < 0 where the mains wait for it. */
  readonly wait_s: (at: Point3) => number;
  /** Whether the sub's switch may stand at normal, and at inverted, as far as the crossover can tell. */
  readonly polarities: { readonly normal: boolean; readonly inverted: boolean };
  /** What its own delay stage holds now. */
  readonly ownDelay_s: number;
}

/** Below this the crossover does not say which polarity is right, and the room decides. Common practice, no source. */
const UNDECIDED_DB = 1.5;
type Of = Pick<Room, 'seats' | 'speakers' | 'subwoofers' | 'sets' | 'settings'>;

/**
 * @param room with a place for every sub
 * @param mains what plays together with the sub, and in which set of monitors; none where the subs are judged by themselves
 * @param inverted how the sub's switch stands now
 * @returns null where an arrival is not known
 */
export function subAlignment(
  room: Of,
  paths: readonly TracedPath[],
  crossovers: readonly CrossoverFigures[],
  speedOfSound_m_s: number,
  sub: string,
  mains: { readonly ids: readonly string[]; readonly set: string | null },
  inverted: boolean,
): SubAlignment | null {
  const ear = referenceSeat(room)?.at ?? null;
  if (ear === null) return null;
  const places = new Map<string, Point>(
    [...room.speakers, ...room.subwoofers].flatMap(({ id, at }) => (at ? [[id, at] as const] : [])),
  );
  const heard = heardAt(ear, ways(room, paths), places, speedOfSound_m_s);
  const own = heard.find(({ source, set }) => source === sub && set === mains.set);
  const others = heard.filter(({ source, set }) => mains.ids.includes(source) && set === mains.set);
  const arrived_s = others.flatMap(({ fixed_s, ownDelay_s }) =>
    fixed_s === null ? [] : [fixed_s + ownDelay_s],
  );
  if (own === undefined || own.fixed_s === null || arrived_s.length < others.length) return null;
  const beyondFlight_s = own.fixed_s - own.flight_s;
  const wanted_s = arrived_s.reduce((sum, one) => sum + one, 0) / Math.max(1, arrived_s.length);
  const steps = stepsOf(own);
  const canWait = others.every((one) => stepsOf(one) !== null);
  return {
    wait_s: (at) => {
      const wait_s = wanted_s - beyondFlight_s - distance_m(at, ear) / speedOfSound_m_s;
      if (others.length === 0) return wait_s;
      if (wait_s < (steps?.min ?? 0)) return canWait ? wait_s : (steps?.min ?? 0);
      return steps === null ? 0 : nearestStep(wait_s, steps);
    },
    polarities: openPolarities(crossovers, sub, inverted),
    ownDelay_s: own.ownDelay_s,
  };
}

function stepsOf({ own }: Heard): Steps | null {
  return own?.control?.kind === 'delay' ? own.control.delay_s : null;
}

function openPolarities(
  crossovers: readonly CrossoverFigures[],
  sub: string,
  inverted: boolean,
): SubAlignment['polarities'] {
  const gains_db = crossovers
    .filter(({ subs }) => subs.includes(sub))
    .flatMap(({ otherPolarity_db }) => otherPolarity_db ?? []);
  const mayStay = gains_db.every((gain_db) => gain_db < UNDECIDED_DB);
  const mayTurn = gains_db.every((gain_db) => -UNDECIDED_DB < gain_db);
  // Sets that ask for different polarities: it stays.
  const [asIs, turned] = mayStay || mayTurn ? [mayStay, mayTurn] : [true, false];
  return { normal: inverted ? turned : asIs, inverted: inverted ? asIs : turned };
}
