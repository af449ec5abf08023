// Rule crossover/located: the subwoofer is not heard as a place.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly crossover_hz: number;
  readonly limit_hz: number;
}

const BEGINS_HZ = 80;
/** No link with the subwoofer's angle was found up to here. @source Kelloniemi et al., AES 118th Convention (2005) 6431 */
const HEARD_HZ = 120;

export const crossoverLocated: Rule = defineRule<Fact>({
  code: 'crossover/located',
  severity: 'information',
  title: 'Subwoofer may be heard as a place',
  reason: 'The higher the crossover, the sooner the ear tells where the bass comes from.',
  advice: 'Lower the crossover, or stand the subwoofer near the mains.',
  source:
    '80 Hz: common practice, no source; 120 Hz: Kelloniemi et al., AES 118th Convention (2005) paper 6431',

  *find({ crossovers }) {
    for (const { current, ranked, path } of crossovers) {
      const crossover_hz = current?.filter.frequency_hz ?? 0;
      // Small mains leave no choice: what the sum asks for is not held against the file.
      const asked_hz = ranked[0]?.filter.frequency_hz ?? 0;
      if (crossover_hz <= Math.max(BEGINS_HZ, asked_hz)) continue;
      const isHeard = HEARD_HZ < crossover_hz;
      const limit_hz = isHeard ? HEARD_HZ : BEGINS_HZ;
      yield {
        path,
        fact: { crossover_hz, limit_hz },
        severity: isHeard ? 'warning' : 'information',
        measured: { value: crossover_hz, unit: 'Hz' },
        limit: { value: limit_hz, unit: 'Hz' },
      };
    }
  },

  message: ({ crossover_hz, limit_hz }, show) =>
    `${show.frequency(crossover_hz)} is above ${show.frequency(limit_hz)}, from where on a subwoofer begins to be heard as a place`,
});
