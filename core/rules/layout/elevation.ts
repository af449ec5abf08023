// Rule layout/elevation: loudspeakers that the layout wants above or below the ears are under the right angle.

import { beyond_rad, ROUNDING_RAD } from '../../parts/layout.ts';
import { layoutTolerances } from '../../parts/layoutTolerances.ts';
import { moveFix } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isAtEarHeight, nearest, stands } from './layoutPath.ts';

interface Fact {
  readonly id: string;
  readonly channel: string;
  readonly seat: string;
  readonly elevation_rad: number;
  readonly want_rad: readonly [number, number];
  readonly layout: string;
}

export const layoutElevation: Rule = defineRule<Fact>({
  code: 'layout/elevation',
  severity: 'warning',
  title: 'Angle up or down to a loudspeaker',
  reason:
    'Heights are mixed for the angles of the standard; too flat, they merge with the ear level.',
  advice:
    'Hang the loudspeaker higher or lower, or nearer or farther; overhead work is for competent people.',
  source: 'ITU-R BS.2051; tolerance ±5°: common practice, no source',

  *find(setup) {
    const { room } = setup;
    for (const { position, id, at, ear, elevation_rad, layout } of stands(setup)) {
      if (isAtEarHeight(position)) continue; // layout/height looks at these
      const want_rad = position.wantElevation_rad;
      const tolerance_rad = layoutTolerances(room.policy, position).elevation_rad;
      if (beyond_rad(elevation_rad, want_rad) <= tolerance_rad + ROUNDING_RAD) continue;
      const asked_rad = nearest(elevation_rad, want_rad);
      const plan_m = Math.hypot(at.x_m - ear.x_m, at.y_m - ear.y_m);
      const to = { ...at, z_m: ear.z_m + plan_m * Math.tan(asked_rad) };
      yield {
        path: ['speakers', id, 'at'],
        fact: {
          id,
          channel: position.channel,
          seat: layout.seat,
          elevation_rad,
          want_rad,
          layout: layout.layout,
        },
        measured: { value: elevation_rad, unit: 'rad' },
        limit: { value: asked_rad, unit: 'rad' },
        related: [
          { path: ['seats', layout.seat, 'at'], message: 'Angles are taken from this seat' },
        ],
        fixes:
          asked_rad < Math.PI / 2 // straight above has no height that would do
            ? [moveFix(room, ['speakers', id], at, to, `Change the height of ${id}`)]
            : [],
      };
    }
  },

  message({ id, channel, seat, elevation_rad, want_rad: [low, high], layout }, show) {
    const asked = low === high ? show.angle(low) : `${show.angle(low)} to ${show.angle(high)}`;
    return `${id} (${channel}) is ${show.angle(elevation_rad)} above the ears of ${seat}, ${layout} asks for ${asked}`;
  },
});
