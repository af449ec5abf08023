// The low end at a glance: how even it is at the reference seat, and how much the seats differ.

import type { Fact } from '../facts.tsx';
import type { View } from '../view.ts';
import { signed } from '../words.ts';
import { curveGroups, groupTitle, leadingGroup } from './curveGroups.ts';

export function lowEndFacts({ setup, show }: View): readonly Fact[] {
  const { field } = setup;
  const seat = field?.seats.find((one) => one.seat === setup.referenceSeat);
  if (!field || !seat) return [];
  const group = leadingGroup(curveGroups(field, seat));
  const extremes = group?.first.extremes;
  if (!group || !extremes) return [];
  const { from_hz, to_hz, plusMinus_db, dip, peak } = extremes;
  const spread = field.spread.find(
    ({ channel, set }) => channel === group.first.channel && set === group.first.set,
  );
  return [
    {
      name: 'Low end',
      value: `±${show.level(plusMinus_db)}`,
      path: ['seats', seat.seat],
      standing: 'predicted',
      note: `${groupTitle(group)} at ${seat.seat}, ${show.frequency(from_hz)} to ${show.frequency(to_hz)}, in one-third-octave bands; dip ${extremeText(dip, show)}, peak ${extremeText(peak, show)}`,
    },
    ...(spread === undefined
      ? []
      : [
          {
            name: 'From seat to seat',
            value: show.level(spread.deviation_db),
            path: ['seats'],
            standing: 'predicted',
            note: `mean spread of ${group.first.channel}, ${show.frequency(spread.from_hz)} to ${show.frequency(spread.to_hz)}; most ${show.level(spread.worst.level_db)} at ${show.frequency(spread.worst.frequency_hz)}`,
          } as const,
        ]),
  ];
}

function extremeText(
  { frequency_hz, level_db }: { readonly frequency_hz: number; readonly level_db: number },
  show: View['show'],
): string {
  return `${signed(level_db, show.level(level_db))} at ${show.frequency(frequency_hz)}`;
}
