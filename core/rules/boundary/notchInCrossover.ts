// Rule boundary/notch-in-crossover: no reflection cancels a main loudspeaker where it is crossed over to the subwoofer.

import type { Path } from '../../../schema/model/path.ts';
import { defineRule, type Rule } from '../rule.ts';
import { surfaceName } from '../surfaceName.ts';
import { DEEP_DB, deepest, HALF_OCTAVE_RATIO, isDeep, type Reflection } from './bassNotch.ts';

interface Fact {
  readonly id: string;
  readonly seat: string;
  readonly reflection: Reflection;
  readonly crossover_hz: number;
}

export const boundaryNotchInCrossover: Rule = defineRule<Fact>({
  code: 'boundary/notch-in-crossover',
  severity: 'information',
  title: 'Notch at the crossover',
  reason:
    'With a hole in one of the two bands their sum cannot be right, whatever delay and polarity say.',
  advice: 'Cross over half an octave away from the notch, or move the loudspeaker.',
  source: 'common practice, no source; notch by geometry, c/(2Δ)',

  *find({ crossovers, boundaries, referenceSeat: seat }) {
    for (const { path, mains, current } of crossovers) {
      if (current === null || seat === null) continue;
      const crossover_hz = current.filter.frequency_hz;
      for (const id of mains) {
        const reflections = boundaries.find(({ source }) => source === id)?.reflections ?? [];
        const reflection = deepest(
          reflections.filter((one) => isDeep(one) && isNear(one.notch_hz, crossover_hz)),
        );
        if (reflection === undefined) continue;
        const setting: Path = path;
        yield {
          path: ['speakers', id, 'at'],
          fact: { id, seat, reflection, crossover_hz },
          measured: { value: reflection.notch_hz, unit: 'Hz' },
          limit: { value: DEEP_DB, unit: 'dB' },
          related: [{ path: setting, message: 'The crossover' }],
        };
      }
    }
  },

  message: ({ id, seat, reflection: { surface, notch_hz, depth_db }, crossover_hz }, show) =>
    `At ${seat} the reflection off the ${surfaceName(surface)} takes ${show.level(-depth_db)} out of ${id} at ${show.frequency(notch_hz)}, beside the crossover at ${show.frequency(crossover_hz)}`,
});

/** Within half an octave. */
function isNear(notch_hz: number, crossover_hz: number): boolean {
  return Math.abs(Math.log(notch_hz / crossover_hz)) <= Math.log(HALF_OCTAVE_RATIO);
}
