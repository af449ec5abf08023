// Rule layout/height: loudspeakers of the middle layer are at the height of the ears.

import type { Severity } from '../../../schema/model/problem.ts';
import { lengthText, ROUNDING_M } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isAtEarHeight, stands } from './layoutPath.ts';

/** Where the policy has no `height`: common practice, no source. */
const TOLERANCE_M = 0.1;
/** @source ITU-R BS.1116-3 (from memory): loudspeakers may be tilted by up to 10° */
const MOST_RAD = (10 * Math.PI) / 180;

interface Fact {
  readonly id: string;
  readonly seat: string;
  readonly above_m: number;
  readonly tolerance_m: number;
}

export const layoutHeight: Rule = defineRule<Fact>({
  code: 'layout/height',
  severity: 'information',
  title: 'Height of a loudspeaker',
  reason:
    'The middle layer is meant for ear height; off it, crossover lobes and desk reflections change the sound.',
  advice:
    'Bring the acoustic centre to ear height, or raise it and tilt it towards the seat by no more than 10°.',
  source:
    'ITU-R BS.775, BS.2051: acoustic centre at ear height; tolerance 0.1 m: common practice, no source',

  *find(setup) {
    const { room } = setup;
    const tolerance_m = room.policy.tolerances.height ?? TOLERANCE_M;
    for (const { position, id, at, ear, elevation_rad, layout } of stands(setup)) {
      if (!isAtEarHeight(position)) continue;
      const above_m = at.z_m - ear.z_m;
      if (Math.abs(above_m) <= tolerance_m + ROUNDING_M) continue;
      const severity: Severity = MOST_RAD < Math.abs(elevation_rad) ? 'warning' : 'information';
      const path = ['speakers', id, 'at', 'z'];
      yield {
        path,
        fact: { id, seat: layout.seat, above_m, tolerance_m },
        severity,
        measured: { value: above_m, unit: 'm' },
        limit: { value: tolerance_m, unit: 'm' },
        related: [{ path: ['seats', layout.seat, 'at'], message: 'Height of the ears' }],
        fixes: [
          {
            title: `Set ${id} to ear height`,
            edits: [{ do: 'set', path, value: lengthText(ear.z_m, room.habits) }],
            safe: false,
          },
        ],
      };
    }
  },

  message: ({ id, seat, above_m, tolerance_m }, show) =>
    `${id} is ${show.smallLength(Math.abs(above_m))} ${
      0 < above_m ? 'above' : 'below'
    } the ears of ${seat}, within ${show.smallLength(tolerance_m)} is asked for`,
});
