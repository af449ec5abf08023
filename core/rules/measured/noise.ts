// Rule measured/noise: recorded background noise keeps to the curve that the file names, or that the standards ask for.

import type { MeasuredNoise } from '../../measured/measuredFigures.ts';
import {
  type BandBeyond,
  bandsBeyond,
  type NoiseLimit,
  noiseLimit,
} from '../../measured/noiseLimit.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly noise: MeasuredNoise;
  readonly limit: NoiseLimit;
  readonly beyond: readonly BandBeyond[];
  readonly worst: BandBeyond;
}

export const measuredNoise: Rule = defineRule<Fact>({
  code: 'measured/noise',
  severity: 'warning',
  title: 'Recorded noise above the curve',
  reason: 'Noise masks reverberation tails and low passages, and people then turn up.',
  advice: 'Switch things off one by one and record again: what the band falls with is the source.',
  source:
    'the rating in `space.background_noise`, else ITU-R BS.1116-3 and EBU Tech 3276: never above NR 15 (from memory); curves: ISO/R 1996:1971, ANSI/ASA S12.2',

  *find({ room, measured }) {
    const limit = noiseLimit(room.space.backgroundNoise);
    for (const { noise: recordings = [] } of measured?.sessions ?? [])
      for (const noise of recordings) {
        const beyond = bandsBeyond(noise, limit);
        const [worst] = beyond;
        if (worst === undefined) continue;
        yield {
          path: noise.path,
          fact: { noise, limit, beyond, worst },
          measured: { value: worst.level_db, unit: 'dB' },
          limit: { value: worst.limit_db, unit: 'dB' },
        };
      }
  },

  message({ noise, limit, beyond, worst }, show) {
    const name = `${limit.curve} ${limit.rating}`;
    const whose = limit.isOwn
      ? `${name}, which the file tells`
      : `${name}, the most that is asked for`;
    const more = beyond.length === 1 ? '' : `; ${beyond.length} octaves are above it`;
    return `${noise.recording}: ${show.level(worst.level_db)} of noise at ${show.frequency(worst.frequency_hz)}, at most ${show.level(worst.limit_db)} by ${whose}${more}`;
  },
});
