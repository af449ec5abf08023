// Rule boundary/early-reflection: reflections within 15 ms lie at least 10 dB below the direct sound at the reference seat.

import { defineRule, type Rule } from '../rule.ts';
import { surfaceName } from '../surfaceName.ts';

interface Early {
  readonly id: string;
  readonly surface: string;
  readonly level_db: number;
  readonly behind_s: number;
}

/** @source EBU Tech 3276, ITU-R BS.1116: 10 dB below the direct sound in the first 15 ms, 1 kHz to 8 kHz */
const LIMIT_DB = -10;
const WITHIN_S = 0.015;
/** The message names so many; the sheet has all. */
const MOST_NAMED = 3;

interface Fact {
  readonly seat: string;
  readonly count: number;
  readonly named: readonly Early[];
}

export const earlyReflection: Rule = defineRule<Fact>({
  code: 'boundary/early-reflection',
  severity: 'hint',
  title: 'Strong early reflection',
  reason:
    'A strong reflection in the first 15 ms colours the sound and blurs or moves phantom images.',
  advice:
    'Treat the place where it meets the surface, or turn the loudspeaker so that it radiates less that way.',
  source:
    'EBU Tech 3276; ITU-R BS.1116: 10 dB below the direct sound, 1 kHz to 8 kHz; modelled from coverings and a beam as of a sphere; the floor, which desks break up, is left out: common practice, no source',

  *find({ boundaries, referenceSeat: seat }) {
    if (seat === null) return;
    const early = boundaries.flatMap(({ source: id, reflections }) =>
      reflections.flatMap(({ surface, early_db, behind_s }): readonly Early[] =>
        early_db === undefined ||
        surface === 'floor' ||
        WITHIN_S < behind_s ||
        early_db <= LIMIT_DB + 0.05
          ? []
          : [{ id, surface, level_db: early_db, behind_s }],
      ),
    );
    const [worst, ...others] = early.toSorted((a, b) => b.level_db - a.level_db);
    if (worst === undefined) return;
    yield {
      path: ['seats', seat],
      fact: { seat, count: early.length, named: [worst, ...others].slice(0, MOST_NAMED) },
      measured: { value: worst.level_db, unit: 'dB' },
      limit: { value: LIMIT_DB, unit: 'dB' },
    };
  },

  message: ({ seat, count, named }, show) =>
    `${count} reflection${count === 1 ? '' : 's'} within ${show.time(WITHIN_S)} at ${seat} above ${show.level(LIMIT_DB)}: ${named
      .map(
        ({ id, surface, level_db, behind_s }) =>
          `${id} off the ${surfaceName(surface)} ${show.level(level_db)} after ${show.time(behind_s)}`,
      )
      .join(', ')}${named.length < count ? ', and more' : ''}`,
});
