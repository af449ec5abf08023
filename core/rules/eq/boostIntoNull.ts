// Rule eq/boost-into-null: no equaliser lifts a frequency that the room cancels at the reference seat.

import { filterLevel_db } from '../../acoustics/analogueFilter.ts';
import { equaliser } from '../../acoustics/equaliser.ts';
import { nullsOf } from '../../equaliser/nulls.ts';
import type { SourceField } from '../../fieldFigures.ts';
import type { Setup } from '../../setup.ts';
import { referenceField, singleTo_hz } from '../field/bassOf.ts';
import { defineRule, type Rule } from '../rule.ts';
import { settingAt } from '../signal/stages.ts';
import { boosts } from './boosts.ts';

interface Fact {
  readonly id: string;
  readonly seat: string;
  readonly frequency_hz: number;
  readonly gain_db: number;
  readonly null_hz: number;
  readonly depth_db: number;
}

/** A boost this near reaches into the null: a sixth of an octave, common practice, no source. */
const NEAR_OCTAVES = 1 / 6;
/** As the equaliser's fit leaves them alone. */
const DEPTH_DB = 8;

export const eqBoostIntoNull: Rule = defineRule<Fact>({
  code: 'eq/boost-into-null',
  severity: 'warning',
  title: 'Boost into a null',
  reason:
    'What the room cancels stays cancelled however loud it is made: the boost only takes headroom, and is heard everywhere else.',
  advice:
    'Take the boost out; move the seat or the loudspeaker, or try another crossover or polarity.',
  source:
    'predicted field of the room; a narrow dip of 8 dB below its octave: common practice, no source',

  *find(setup) {
    const { field } = setup;
    const here = referenceField(setup);
    if (!field || here === undefined) return;
    for (const { path, targets, frequency_hz, gain_db } of boosts(setup)) {
      if (singleTo_hz(field) < frequency_hz) continue;
      const [worst] = here.sources
        .filter(({ source }) => targets.includes(source))
        .flatMap((source) =>
          nullsOf(field.frequency_hz, withoutEq_db(setup, source, field.frequency_hz)).map(
            (dip) => ({ ...dip, id: source.source }),
          ),
        )
        .filter((dip) => Math.abs(Math.log2(dip.frequency_hz / frequency_hz)) <= NEAR_OCTAVES)
        .toSorted((a, b) => b.depth_db - a.depth_db);
      if (worst === undefined) continue;
      yield {
        path,
        fact: {
          id: worst.id,
          seat: here.seat,
          frequency_hz,
          gain_db,
          null_hz: worst.frequency_hz,
          depth_db: worst.depth_db,
        },
        measured: { value: worst.depth_db, unit: 'dB' },
        limit: { value: DEPTH_DB, unit: 'dB' },
        fixes: [{ title: 'Take this band out', edits: [{ do: 'remove', path }], safe: false }],
      };
    }
  },

  message: ({ id, seat, frequency_hz, gain_db, null_hz, depth_db }, show) =>
    `${show.level(gain_db)} of boost at ${show.frequency(frequency_hz)} goes into a null of ${id} at ${seat} (${show.frequency(null_hz)}, ${show.level(depth_db)} deep, predicted)`,
});

/** The source's curve as it would be with its equalisers flat. */
function withoutEq_db(
  { room, signalPaths }: Setup,
  { source, set, level_db }: SourceField,
  frequency_hz: readonly number[],
): readonly number[] {
  const path = signalPaths.find((one) => one.target === source && (one.set ?? null) === set);
  const filter = (path?.stages ?? []).flatMap(({ kind, settingPath }) => {
    const value = kind === 'eq' ? settingAt(room, settingPath) : undefined;
    return value?.kind !== 'eq'
      ? []
      : equaliser(
          value.bands.flatMap((band) =>
            band.frequency_hz !== null &&
            0 < band.frequency_hz &&
            band.gain_db !== null &&
            band.q !== null &&
            0 < band.q
              ? [
                  {
                    kind: 'bell' as const,
                    frequency_hz: band.frequency_hz,
                    gain_db: band.gain_db,
                    q: band.q,
                  },
                ]
              : [],
          ),
        );
  });
  return level_db.map((level, i) => level - filterLevel_db(filter, frequency_hz[i] ?? 1));
}
