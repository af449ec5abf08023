// Rule field/dip-in-crossover: in the room, the sum of loudspeaker and subwoofer has no hole where one hands over to the other.

import type { Path } from '../../../schema/model/path.ts';
import type { Extreme } from '../../fieldFigures.ts';
import { defineRule, type Rule } from '../rule.ts';
import { channelText, referenceField } from './bassOf.ts';

interface Fact {
  readonly channels: readonly string[];
  readonly seat: string;
  readonly dip: Extreme;
  readonly crossover_hz: number;
}

/** Half of what makes a dip audible as a missing note even beside a peak: common practice, no source. */
const DEEP_DB = -12;
const HALF_OCTAVE_RATIO = Math.SQRT2;

export const fieldDipInCrossover: Rule = defineRule<Fact>({
  code: 'field/dip-in-crossover',
  severity: 'information',
  title: 'Dip at the crossover, in the room',
  reason: 'Where two sources share a note their phases decide, and the room has a say in them.',
  advice:
    "Compare the other polarity, the subwoofer's delay, and a crossover half an octave away; then measure.",
  source: 'predicted field of the room; the limit of 12 dB is common practice, no source',

  *find(setup) {
    const here = referenceField(setup);
    if (!setup.field || here === undefined) return;
    for (const { path, mains, subs, set, current } of setup.crossovers) {
      if (current === null) continue;
      const crossover_hz = current.filter.frequency_hz;
      const dips = here.channels.flatMap((channel) => {
        const dip = channel.extremes?.dip;
        const isShared =
          channel.set === set &&
          channel.sources.some((id) => mains.includes(id)) &&
          channel.sources.some((id) => subs.includes(id));
        return isShared && dip && dip.level_db <= DEEP_DB && isNear(dip.frequency_hz, crossover_hz)
          ? [{ channel, dip }]
          : [];
      });
      const [worst] = dips.toSorted((one, other) => one.dip.level_db - other.dip.level_db);
      if (worst === undefined) continue;
      const setting: Path = path;
      yield {
        path: setting,
        fact: {
          channels: dips.map(({ channel }) => channelText(channel)),
          seat: here.seat,
          dip: worst.dip,
          crossover_hz,
        },
        measured: { value: worst.dip.level_db, unit: 'dB' },
        limit: { value: DEEP_DB, unit: 'dB' },
      };
    }
  },

  message: ({ channels, seat, dip, crossover_hz }, show) =>
    `Beside the crossover at ${show.frequency(crossover_hz)} the sum dips by ${show.level(-dip.level_db)} at ${show.frequency(dip.frequency_hz)} in ${channels.join(', ')} at ${seat}, predicted`,
});

function isNear(dip_hz: number, crossover_hz: number): boolean {
  return Math.abs(Math.log(dip_hz / crossover_hz)) <= Math.log(HALF_OCTAVE_RATIO);
}
