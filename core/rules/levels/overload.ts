// Rule levels/overload: no output can drive the next input into clipping.

import { voltageTo_dbu } from '../../acoustics/levels.ts';
import { defineRule, type Rule } from '../rule.ts';
import { portText, wirePath } from '../signal/stages.ts';

interface Fact {
  readonly from: string;
  readonly to: string;
  readonly from_dbu: number;
  readonly to_dbu: number;
}

/** What is left of a decibel in data sheets. */
const LIMIT_DB = -0.5;

export const levelsOverload: Rule = defineRule<Fact>({
  code: 'levels/overload',
  severity: 'warning',
  title: 'Output above the input that it feeds',
  reason: 'Loud passages clip at this input, before any level control after it can help.',
  advice:
    'Set the input to a higher level, turn the output down for good, or put a pad between them.',
  source: 'full level of the output against that of the input, from the gear files and settings',

  *find({ room, levels, advice }) {
    for (const { connection, fromFull_v, toFull_v, margin_db } of levels.connections) {
      if (fromFull_v === null || toFull_v === null || margin_db === null) continue;
      if (LIMIT_DB <= margin_db) continue;
      const wire = room.wiring.find(({ index }) => index === connection);
      if (wire === undefined) continue;
      const fix = advice.find(
        ({ device, control }) => device === wire.to.device && control === 'input_sensitivity',
      )?.fix;
      yield {
        path: wirePath(connection),
        fact: {
          from: portText(wire.from),
          to: portText(wire.to),
          from_dbu: voltageTo_dbu(fromFull_v),
          to_dbu: voltageTo_dbu(toFull_v),
        },
        measured: { value: margin_db, unit: 'dB' },
        limit: { value: 0, unit: 'dB' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ from, to, from_dbu, to_dbu }, show) =>
    `${from} gives up to ${from_dbu.toFixed(1)} dBu; ${to} clips at ${to_dbu.toFixed(1)} dBu, ${show.level(from_dbu - to_dbu)} earlier`,
});
