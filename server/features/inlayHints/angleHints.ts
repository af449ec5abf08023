// Hints of the kind `angle`: the direction that each loudspeaker is heard from at the reference seat.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { pathOfThing } from '../../things.ts';
import { angleLabel, explainAngle } from '../../words/angleWords.ts';
import { seatFigures } from '../../words/arrivalWords.ts';
import type { Hint } from './hint.ts';

/** Main loudspeakers only: a subwoofer's direction is not meant to be heard. */
export function angleHints(setup: Setup, show: Show): readonly Hint[] {
  const seat = setup.referenceSeat;
  const figures = seatFigures(setup, seat);
  if (seat === null || figures === null) return [];
  const mains = new Set(setup.room.speakers.map(({ id }) => id));
  return figures.angles.flatMap(({ source, azimuth_rad, elevation_rad }) => {
    const path = pathOfThing(setup, source);
    if (!mains.has(source) || path === null) return [];
    return [
      {
        kind: 'angle',
        path: [...path, 'at'],
        rank: 2,
        name: null,
        parts: [
          {
            text: angleLabel(azimuth_rad, elevation_rad, show),
            dependsOn: ['seats', seat, 'at'],
          },
        ],
        explanation: explainAngle(setup, seat, source, show),
        edits: [],
      } satisfies Hint,
    ];
  });
}
