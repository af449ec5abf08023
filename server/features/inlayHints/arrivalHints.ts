// Hints of the kind `arrival`: distance to the reference seat and time of flight beside each loudspeaker's place.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { pathOfThing, speakersAndSubs } from '../../things.ts';
import { arrivalOf, explainArrival } from '../../words/arrivalWords.ts';
import type { Hint } from './hint.ts';

export function arrivalHints(setup: Setup, show: Show): readonly Hint[] {
  const seat = setup.referenceSeat;
  if (seat === null) return [];
  return speakersAndSubs(setup).flatMap(({ id }) => {
    const arrival = arrivalOf(setup, seat, id);
    const path = pathOfThing(setup, id);
    if (arrival === null || path === null) return [];
    return [
      {
        kind: 'arrival',
        path: [...path, 'at'],
        rank: 3,
        name: null,
        parts: [
          { text: show.length(arrival.distance_m), dependsOn: ['seats', seat, 'at'] },
          { text: show.time(arrival.flight_s), dependsOn: ['space', 'air'] },
        ],
        explanation: explainArrival(setup, seat, arrival, show),
        edits: [],
      } satisfies Hint,
    ];
  });
}
