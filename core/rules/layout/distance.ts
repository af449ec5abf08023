// Rule layout/distance: all loudspeakers are equally far from the seat, or delayed as if they were.

import type { Setup } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';
import { type Stand, stands } from './layoutPath.ts';

/** Of the farthest; where the policy has no `distance`: common practice, no source (a survey of homes uses ±10 % for surrounds). */
const TOLERANCE_SHARE = 0.1;
/** Beyond it a difference is heard as direction or echo: the end of summing localisation. @source Litovsky et al., JASA 106 (1999) */
const MOST_EARLY_S = 0.001;

interface Fact {
  readonly id: string;
  readonly distance_m: number;
  readonly farthest: string;
  readonly farthest_m: number;
}

export const layoutDistance: Rule = defineRule<Fact>({
  code: 'layout/distance',
  severity: 'information',
  title: 'Loudspeakers at unequal distances',
  reason:
    'The standard sees all loudspeakers on one circle round the seat; a nearer one is heard first and louder.',
  advice: 'Delay and turn down the nearer one in a device that can do so, or move it outwards.',
  source:
    'ITU-R BS.775: equal distances, or delays in their place; the limits are common practice, no source',

  *find(setup) {
    const all = stands(setup);
    for (const stand of all) {
      const fellows = all.filter(({ layout }) => layout === stand.layout);
      const farthest = fellows.reduce((far, one) => (reach_m(far) < reach_m(one) ? one : far));
      const nearer_m = reach_m(farthest) - reach_m(stand);
      const tolerance_m =
        setup.room.policy.tolerances.distance ?? TOLERANCE_SHARE * reach_m(farthest);
      if (nearer_m <= tolerance_m + 1e-9 || isDelayed(setup, stand)) continue;
      yield {
        path: ['speakers', stand.id, 'at'],
        fact: {
          id: stand.id,
          distance_m: reach_m(stand),
          farthest: farthest.id,
          farthest_m: reach_m(farthest),
        },
        measured: { value: nearer_m, unit: 'm' },
        limit: { value: tolerance_m, unit: 'm' },
        related: [{ path: ['speakers', farthest.id, 'at'], message: 'The farthest one' }],
      };
    }
  },

  message: ({ id, distance_m, farthest, farthest_m }, show) =>
    `${id} is ${show.length(distance_m)} away, ${farthest} ${show.length(farthest_m)}, and no delay makes up for it`,
});

/** Delayed already, or with a delay stage that the settings speak of. */
function isDelayed({ seats }: Setup, { id, layout }: Stand): boolean {
  const arrival = seats
    .find((seat) => seat.id === layout.seat)
    ?.arrivals.find(({ source }) => source === id);
  if (arrival === undefined) return false;
  return (
    arrival.adviceIndex !== null || (arrival.early_s !== null && arrival.early_s <= MOST_EARLY_S)
  );
}

function reach_m({ at, ear }: Stand): number {
  return Math.hypot(at.x_m - ear.x_m, at.y_m - ear.y_m, at.z_m - ear.z_m);
}
