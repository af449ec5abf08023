// Hints of the kind `bass`: deepest dip and highest peak beside the places of subwoofers, loudspeakers and seats.

import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import { pathOfThing } from '../../things.ts';
import { explainSeat, explainSource, extremesLabel, worstChannel } from '../../words/fieldWords.ts';
import type { Hint } from './hint.ts';

/** On a subwoofer's line before its time of flight; on a loudspeaker's, where angles matter more, after all else. */
const RANK = { subwoofer: 4, speaker: 1, seat: 3 } as const;

export function bassHints(setup: Setup, show: Show): readonly Hint[] {
  return [...sourceHints(setup, show), ...seatHints(setup, show)];
}

/** Each by itself at the reference seat; of several sets of monitors, the first. */
function sourceHints(setup: Setup, show: Show): readonly Hint[] {
  const { field, referenceSeat, room } = setup;
  const here = field?.seats.find(({ seat }) => seat === referenceSeat);
  if (!field || !here) return [];
  const subs = new Set(room.subwoofers.map(({ id }) => id));
  const told = new Set<string>();
  return here.sources.flatMap(({ source, extremes }) => {
    const path = pathOfThing(setup, source);
    if (extremes === null || path === null || told.has(source)) return [];
    told.add(source);
    const dependsOn = ['seats', here.seat, 'at'];
    return [
      {
        kind: 'bass',
        path: [...path, 'at'],
        rank: subs.has(source) ? RANK.subwoofer : RANK.speaker,
        name: null,
        parts: extremesLabel(extremes, field.schroeder_hz).map((text) => ({ text, dependsOn })),
        explanation: explainSource(setup, source, show)[0] ?? null,
        edits: [],
      } satisfies Hint,
    ];
  });
}

/** The channel that fares worst. */
function seatHints(setup: Setup, show: Show): readonly Hint[] {
  const { field } = setup;
  if (!field) return [];
  return field.seats.flatMap((seat) => {
    const worst = worstChannel(seat);
    if (worst === null || worst.extremes === null) return [];
    const { plusMinus_db } = worst.extremes;
    const [first] = worst.sources;
    const dependsOn = first === undefined ? null : pathOfThing(setup, first);
    const texts = [
      `${worst.channel} ±${plusMinus_db.toFixed(0)} dB`,
      ...extremesLabel(worst.extremes, field.schroeder_hz),
    ];
    return [
      {
        kind: 'bass',
        path: ['seats', seat.seat, 'at'],
        rank: RANK.seat,
        name: null,
        parts: texts.map((text) => ({ text, dependsOn })),
        explanation: explainSeat(setup, seat.seat, show)[0] ?? null,
        edits: [],
      } satisfies Hint,
    ];
  });
}
