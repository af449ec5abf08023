// Rule placement/source-near-wall: free-standing mains keep a metre from the walls.

import { defineRule, type Rule } from '../rule.ts';
import { surfaceName } from '../surfaceName.ts';

/** @source ITU-R BS.1116-3 §8.5.1.2 (clause confirmed, figure from memory): at least 1 m from reflecting walls */
const LEAST_M = 1;
/** The front loudspeakers: the ones whose places are free to choose. */
const FRONT_RAD = Math.PI / 3;

interface Near {
  readonly id: string;
  readonly surface: string;
  readonly distance_m: number;
}

export const sourceNearWall: Rule = defineRule<readonly Near[]>({
  code: 'placement/source-near-wall',
  severity: 'hint',
  title: 'Mains near a wall',
  reason: 'A wall near a loudspeaker lifts its bass and cuts a notch above it.',
  advice:
    'Look at the notches it makes; build the loudspeaker into the wall, or treat the wall, where there is no more room.',
  source: 'ITU-R BS.1116-3 §8.5.1.2 (from memory): at least 1 m, unless built in',

  *find({ room, boundaries, seats, referenceSeat }) {
    const angles = seats.find(({ id }) => id === referenceSeat)?.angles ?? [];
    const near = room.speakers.flatMap(({ id, flushIn }): Near[] => {
      const azimuth_rad = angles.find(({ source }) => source === id)?.azimuth_rad;
      if (flushIn !== null || azimuth_rad === undefined) return [];
      if (FRONT_RAD < Math.abs(azimuth_rad)) return [];
      const walls = boundaries
        .find(({ source }) => source === id)
        ?.surfaces.filter(({ surface }) => surface !== 'floor' && surface !== 'ceiling');
      const [nearest] = walls ?? [];
      if (nearest === undefined || LEAST_M <= nearest.distance_m) return [];
      return [{ id, surface: nearest.surface, distance_m: nearest.distance_m }];
    });
    const [first, ...others] = near.toSorted((a, b) => a.distance_m - b.distance_m);
    if (first === undefined) return;
    yield {
      path: ['speakers', first.id, 'at'],
      fact: [first, ...others],
      measured: { value: first.distance_m, unit: 'm' },
      limit: { value: LEAST_M, unit: 'm' },
      related: others.map(({ id }) => ({
        path: ['speakers', id, 'at'],
        message: 'Near a wall as well',
      })),
    };
  },

  message: (near, show) =>
    `${near
      .map(
        ({ id, surface, distance_m }) =>
          `${id} ${show.length(distance_m)} from the ${surfaceName(surface)}`,
      )
      .join(', ')}: less than ${show.length(LEAST_M)}`,
});
