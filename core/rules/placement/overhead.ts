// Rule placement/overhead: what hangs or stands above people is told, with the caution that belongs to it.

import { OVERHEAD_M, overheadIds } from '../../parts/cautions.ts';
import { sourceAt, sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly height_m: number;
  readonly mass_kg: number | null;
}

export const placementOverhead: Rule = defineRule<Fact>({
  code: 'placement/overhead',
  severity: 'information',
  title: 'Load overhead',
  reason: 'What comes loose above people falls on them.',
  advice:
    'A qualified person designs the fixing and a competent one installs and inspects it, by the local code: load-rated hardware, a second independent suspension.',
  source:
    'above 1.9 m: common practice, no source; design factor of at least 5: rigging practice; local codes decide',

  *find({ room }) {
    const all = [...room.speakers, ...room.subwoofers];
    for (const id of overheadIds(room)) {
      const at = sourceAt(room, id);
      if (at === null) continue;
      const mass_kg = all.find((one) => one.id === id)?.gear?.mass_kg ?? null;
      yield {
        path: [...sourcePath(room, id), 'at'],
        fact: { id, height_m: at.z_m, mass_kg },
        measured: { value: at.z_m, unit: 'm' },
        limit: { value: OVERHEAD_M, unit: 'm' },
      };
    }
  },

  message: ({ id, height_m, mass_kg }, show) =>
    `Caution: ${id} is overhead, ${show.length(height_m)} up${
      mass_kg === null ? ', its mass not recorded' : `, ${show.mass(mass_kg)}`
    }`,
});
