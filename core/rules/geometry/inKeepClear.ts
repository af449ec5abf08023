// Rule geometry/in-keep-clear: no loudspeaker or subwoofer stands where the way is to be kept clear.

import { thingsOf } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { isInRegion, regions } from './region.ts';

/** Where the region has no height: people walk below it. Common practice, no source; building codes ask for 2 m and more. */
const HEADROOM_M = 2.1;

interface Fact {
  readonly id: string;
  readonly region: string;
  readonly because: string | null;
}

export const geometryInKeepClear: Rule = defineRule<Fact>({
  code: 'geometry/in-keep-clear',
  severity: 'warning',
  title: 'In a place to keep clear',
  reason: 'The file says that this place stays free; a way out has to.',
  advice: 'Move it out of the region. What a way out needs is a matter of the local code.',
  source: 'the room file',

  *find({ room }) {
    for (const { id, kind, at, path } of thingsOf(room)) {
      if (kind === 'seat') continue; // people can get up
      for (const region of regions(room.space.fixtures, 'keep_clear')) {
        if (!isInRegion(region, at)) continue;
        if (region.z_m === null && HEADROOM_M < at.z_m) continue;
        yield {
          path: [...path, 'at'],
          fact: { id, region: region.id, because: region.because },
          related: [{ path: ['space', 'fixtures', region.id], message: 'The place to keep clear' }],
        };
      }
    }
  },

  message: ({ id, region, because }) =>
    `${id} stands in ${region}, which is to be kept clear${because === null ? '' : ` (${because})`}`,
});
