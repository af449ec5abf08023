// Rule placement/heavy-lift: what one person should not lift alone is told before anyone does.

import { isHeavy, TWO_PEOPLE_KG } from '../../parts/cautions.ts';
import { sourcePath } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly id: string;
  readonly mass_kg: number;
}

export const placementHeavyLift: Rule = defineRule<Fact>({
  code: 'placement/heavy-lift',
  severity: 'hint',
  title: 'Heavy lift',
  reason: 'Backs and fingers are hurt by loads that look manageable.',
  advice:
    'Two people or a lifting aid; secure what can topple. Local rules on manual handling come first.',
  source: 'reference mass of 25 kg: ISO 11228-1 (from memory)',

  *find({ room }) {
    for (const { id, gear } of [...room.speakers, ...room.subwoofers].filter(isHeavy)) {
      const mass_kg = gear?.mass_kg ?? null;
      if (mass_kg === null) continue;
      yield {
        path: sourcePath(room, id),
        fact: { id, mass_kg },
        measured: { value: mass_kg, unit: 'kg' },
        limit: { value: TWO_PEOPLE_KG, unit: 'kg' },
      };
    }
  },

  message: ({ id, mass_kg }, show) => `Caution: ${id} weighs ${show.mass(mass_kg)}`,
});
