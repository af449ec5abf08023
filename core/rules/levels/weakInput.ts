// Rule levels/weak-input: no input is set so high that the output before it never comes near.

import type { Connection, Room } from '../../../schema/model/room.ts';
import { voltageTo_dbu } from '../../acoustics/levels.ts';
import { defineRule, type Rule } from '../rule.ts';
import { portText, wirePath } from '../signal/stages.ts';

interface Fact {
  readonly from: string;
  readonly to: string;
  readonly from_dbu: number;
  readonly to_dbu: number;
}

/** A pad's worth; common practice, no source. */
const LIMIT_DB = 10;

export const levelsWeakInput: Rule = defineRule<Fact>({
  code: 'levels/weak-input',
  severity: 'information',
  title: 'Levels of a connection do not match',
  reason:
    'The signal stays far below what this input is made for: its noise comes nearer by as much, and full output is never reached.',
  advice: 'Set the input to a lower level, or the output to a higher one.',
  source: 'full level of the output against that of the input; 10 dB: common practice, no source',

  *find({ room, levels, advice }) {
    for (const { connection, fromFull_v, toFull_v } of levels.connections) {
      const wire = room.wiring.find(({ index }) => index === connection);
      if (wire === undefined || fromFull_v === null || fromFull_v <= 0) continue;
      // A power amplifier is turned down on purpose: what it drives has no noise of its own.
      if (room.devices.find(({ id }) => id === wire.from.device)?.gear?.kind === 'amplifier')
        continue;
      const made_v = madeFor_v(room, wire, toFull_v);
      if (made_v === null || made_v <= 0) continue;
      const [from_dbu, to_dbu] = [voltageTo_dbu(fromFull_v), voltageTo_dbu(made_v)];
      if (to_dbu - from_dbu <= LIMIT_DB + 0.05) continue;
      const fix = advice.find(
        ({ device, control }) => device === wire.to.device && control === 'input_sensitivity',
      )?.fix;
      yield {
        path: wirePath(connection),
        fact: { from: portText(wire.from), to: portText(wire.to), from_dbu, to_dbu },
        measured: { value: to_dbu - from_dbu, unit: 'dB' },
        limit: { value: LIMIT_DB, unit: 'dB' },
        fixes: fix ? [fix] : [],
      };
    }
  },

  message: ({ from, to, from_dbu, to_dbu }, show) =>
    `${from} gives at most ${from_dbu.toFixed(1)} dBu; ${to} is made for ${to_dbu.toFixed(1)} dBu, ${show.level(to_dbu - from_dbu)} more`,
});

/** A loudspeaker's input by its data sheet: what is turned down after it takes nothing from the match. */
function madeFor_v(room: Room, { to }: Connection, toFull_v: number | null): number | null {
  const gear = [...room.speakers, ...room.subwoofers, ...room.devices].find(
    ({ id }) => id === to.device,
  )?.gear;
  return gear?.kind === 'loudspeaker' ? (gear.fullLevelInput_v ?? toFull_v) : toFull_v;
}
