// Rule field/sub-on-node: a single subwoofer does not stand in the node of a low mode between two walls.

import type { ModeFigures } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly sub: string;
  readonly mode: ModeFigures;
}

/** Twenty decibels below the most that the mode could be driven. */
const LEAST_STRENGTH = 0.1;
/** The first two modes of a dimension make most of the bass; above this a subwoofer is crossed over. */
const MOST_ORDER = 2;
const MOST_HZ = 90;

export const fieldSubOnNode: Rule = defineRule<Fact>({
  code: 'field/sub-on-node',
  severity: 'information',
  title: 'Subwoofer on a node',
  reason:
    "A source in a mode's node does not drive it: around that note little bass is heard anywhere.",
  advice:
    'Move the subwoofer by a tenth of that dimension, or leave it so to keep a loud mode quiet.',
  source:
    'computed from the mode shape, cos(nπx/L); the limit of -20 dB is common practice, no source',

  *find({ room, space, field }) {
    const [sub, ...others] = room.subwoofers;
    if (!field || sub === undefined || 0 < others.length) return;
    for (const mode of space?.modes ?? []) {
      const driven = mode.drivenBy.find(({ source }) => source === sub.id);
      if (mode.kind !== 'axial' || MOST_HZ < mode.frequency_hz || driven === undefined) continue;
      if (MOST_ORDER < Math.max(...mode.order) || LEAST_STRENGTH <= driven.strength) continue;
      yield {
        path: ['subwoofers', sub.id, 'at', axisOf(mode)],
        fact: { sub: sub.id, mode },
        measured: { value: driven.strength, unit: '1' },
        limit: { value: LEAST_STRENGTH, unit: '1' },
      };
    }
  },

  message: ({ sub, mode }, show) =>
    `${sub} stands in the node of the ${dimensionOf(mode)} mode at ${show.frequency(mode.frequency_hz)} and does not drive it`,
});

export function axisOf({ order: [x, y] }: ModeFigures): 'x' | 'y' | 'z' {
  return 0 < x ? 'x' : 0 < y ? 'y' : 'z';
}

export function dimensionOf(mode: ModeFigures): string {
  return { x: 'width', y: 'depth', z: 'height' }[axisOf(mode)];
}
