// Rule boundary/notch: no wall cuts a deep notch into the bass of a front loudspeaker.

import { defineRule, type Rule } from '../rule.ts';
import { surfaceName } from '../surfaceName.ts';
import {
  crossedAt_hz,
  DEEP_DB,
  deepest,
  frontSpeakers,
  HALF_OCTAVE_RATIO,
  isDeep,
  isWall,
  type Reflection,
} from './bassNotch.ts';

/** Above it a loudspeaker beams forwards and the wall behind it hears little: common practice, no source. */
const BASS_TO_HZ = 250;
/** Where the gear file gives no roll-off: what mains of this trade reach. Common practice, no source. */
const USUAL_LOW_HZ = 50;

interface Fact {
  readonly id: string;
  readonly seat: string;
  readonly reflection: Reflection;
  /** For the wall behind it: how near the loudspeaker has to be for a notch above the bass. */
  readonly clear_m: number | null;
}

export const boundaryNotch: Rule = defineRule<Fact>({
  code: 'boundary/notch',
  severity: 'information',
  title: 'Notch from a wall',
  reason: 'The reflection arrives half a wave late and cancels: no equaliser fills that hole.',
  advice:
    'Move the loudspeaker close to the wall or build it in, so that the notch rises out of the bass; or make the wall absorb.',
  source:
    'geometry: first notch at c/(2Δ), depth 20 lg(1 − g); the limit of 6 dB is common practice, no source',

  *find(setup) {
    const { room, boundaries, referenceSeat: seat } = setup;
    if (seat === null) return;
    for (const id of frontSpeakers(setup)) {
      const figures = boundaries.find(({ source }) => source === id);
      const speaker = room.speakers.find((one) => one.id === id);
      const crossed_hz = crossedAt_hz(setup, id);
      const from_hz =
        crossed_hz === null
          ? (speaker?.gear?.lowEnd?.minus6db_hz ?? USUAL_LOW_HZ)
          : crossed_hz * HALF_OCTAVE_RATIO; // what lies nearer is boundary/notch-in-crossover's
      const reflection = deepest(
        (figures?.reflections ?? []).filter(
          (one) =>
            isWall(one) && isDeep(one) && from_hz < one.notch_hz && one.notch_hz < BASS_TO_HZ,
        ),
      );
      if (reflection === undefined) continue;
      const wall_m = figures?.surfaces.find(
        ({ surface }) => surface === reflection.surface,
      )?.distance_m;
      yield {
        path: ['speakers', id, 'at'],
        fact: { id, seat, reflection, clear_m: clear_m(reflection, wall_m ?? null) },
        measured: { value: reflection.depth_db, unit: 'dB' },
        limit: { value: DEEP_DB, unit: 'dB' },
      };
    }
  },

  message({ id, seat, reflection: { surface, notch_hz, depth_db }, clear_m: near_m }, show) {
    const notch = `At ${seat} the reflection off the ${surfaceName(surface)} takes ${show.level(-depth_db)} out of ${id} at ${show.frequency(notch_hz)}`;
    return near_m === null
      ? notch
      : `${notch}; within ${show.length(near_m)} of it the notch lies above ${show.frequency(BASS_TO_HZ)}`;
  },
});

/** The path difference of a wall straight behind is twice its distance, and shrinks with it; null for other walls. */
function clear_m(
  { pathDifference_m, notch_hz }: Reflection,
  distance_m: number | null,
): number | null {
  if (distance_m === null || pathDifference_m < 1.7 * distance_m) return null; // 2 on axis
  return (distance_m * notch_hz) / BASS_TO_HZ;
}
