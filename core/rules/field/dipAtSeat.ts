// Rule field/dip-at-seat: no channel has a deep hole in its bass at the reference seat.

import type { ChannelField, Extreme } from '../../fieldFigures.ts';
import { defineRule, type Rule } from '../rule.ts';
import { channelText, referenceField, singleTo_hz } from './bassOf.ts';

interface Fact {
  readonly seat: string;
  readonly channels: readonly string[];
  readonly dip: Extreme;
}

/** Rooms are full of dips of 10 dB; one of 15 dB takes a note out. Common practice, no source. */
const DEEP_DB = -15;
/** It is there in every room that the envelope allows if even the best of them leaves so much of it. */
const SURE_DB = -6;

export const fieldDipAtSeat: Rule = defineRule<Fact>({
  code: 'field/dip-at-seat',
  severity: 'information',
  title: 'Deep dip in the bass',
  reason: 'Direct and reflected sound cancel there: no equaliser fills that hole.',
  advice: 'Move the seat, the subwoofer or the loudspeaker; try the crossover or another polarity.',
  source: 'predicted field of the room; the limit of 15 dB is common practice, no source',

  *find(setup) {
    const { field } = setup;
    const here = referenceField(setup);
    if (!field || here === undefined) return;
    const deep = here.channels.flatMap((channel) => {
      const dip = channel.extremes?.dip;
      const isDeep = dip && dip.level_db <= DEEP_DB && dip.frequency_hz <= singleTo_hz(field);
      return isDeep && isSure(channel, dip, field.frequency_hz) ? [{ channel, dip }] : [];
    });
    const [worst] = deep.toSorted((one, other) => one.dip.level_db - other.dip.level_db);
    if (worst === undefined) return;
    const alike = deep.filter(
      ({ dip }) => Math.abs(dip.frequency_hz / worst.dip.frequency_hz - 1) < 0.03,
    );
    yield {
      path: ['seats', here.seat, 'at'],
      fact: {
        seat: here.seat,
        channels: alike.map(({ channel }) => channelText(channel)),
        dip: worst.dip,
      },
      measured: { value: worst.dip.level_db, unit: 'dB' },
      limit: { value: DEEP_DB, unit: 'dB' },
    };
  },

  message: ({ seat, channels, dip }, show) =>
    `Dip of ${show.level(-dip.level_db)} at ${show.frequency(dip.frequency_hz)} in ${channels.join(', ')} at ${seat}, predicted`,
});

function isSure(
  { upper_db, extremes }: ChannelField,
  dip: Extreme,
  frequency_hz: readonly number[],
): boolean {
  const at = frequency_hz.indexOf(dip.frequency_hz);
  const upper = upper_db?.[at];
  return upper === undefined || extremes === null || upper - extremes.median_db <= SURE_DB;
}
