// Rule space/coincident-modes: no two axial modes of different dimensions share a frequency.

import type { ModeFigures } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly pairs: readonly (readonly [ModeFigures, ModeFigures])[];
}

/** Well inside the bandwidth of about 5 Hz that modes of small rooms have. @source Handbook for Sound Engineers §6.6 */
const TOGETHER_HZ = 1;
/** Above it modes are too many to matter one by one, where no decay time gives Schroeder's frequency. */
const MOST_HZ = 150;

export const spaceCoincidentModes: Rule = defineRule<Fact>({
  code: 'space/coincident-modes',
  severity: 'information',
  title: 'Axial modes at one frequency',
  reason: 'Two axial modes at one frequency add up: a strong, long note there.',
  advice: 'Keep seat and subwoofers off the maxima of both, or damp one of the pairs of walls.',
  source: 'Handbook for Sound Engineers §6.6: axial modes keep apart',

  *find({ space }) {
    const limit_hz = Math.min(space?.schroeder_hz ?? MOST_HZ, MOST_HZ);
    const axial = (space?.modes ?? []).filter(
      ({ kind, frequency_hz }) => kind === 'axial' && frequency_hz <= limit_hz,
    );
    const pairs = axial.flatMap((mode, index): (readonly [ModeFigures, ModeFigures])[] => {
      const next = axial[index + 1];
      if (next === undefined || TOGETHER_HZ < next.frequency_hz - mode.frequency_hz) return [];
      return [[mode, next]];
    });
    if (0 < pairs.length) yield { path: ['space', 'size'], fact: { pairs } };
  },

  message: ({ pairs }, show) =>
    `Axial modes meet: ${pairs
      .map(
        ([one, other]) =>
          `${dimension(one)} and ${dimension(other)} at ${show.frequency(one.frequency_hz)}`,
      )
      .join(', ')}`,
});

function dimension({ order: [x, y] }: ModeFigures): string {
  return 0 < x ? 'width' : 0 < y ? 'depth' : 'height';
}
