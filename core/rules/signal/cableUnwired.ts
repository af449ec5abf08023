// Rule signal/cable-unwired: what a cable carries stands in the wiring.

import type { Cable, CableEnd, Room } from '../../../schema/model/room.ts';
import { defineRule, type Rule } from '../rule.ts';
import { cableEndText, cablePath, cableText } from './cables.ts';

interface Fact {
  readonly cable: string;
  readonly from: string;
  readonly to: string;
}

export const cableUnwired: Rule = defineRule<Fact>({
  code: 'signal/cable-unwired',
  severity: 'hint',
  title: 'A cable that the wiring does not know',
  reason:
    'The wiring says what signal goes where, the cables by which run: what stands in one only is an old run or a slip.',
  advice: 'Add the connection, correct the cable’s ends, or take the cable away.',
  source: 'common practice, no source',

  *find({ room }) {
    for (const cable of room.cables ?? []) {
      if (cable.kind === 'mains' || isWired(room, cable)) continue;
      const { from, to } = cable;
      yield {
        path: cablePath(cable),
        fact: { cable: cableText(cable), from: cableEndText(from), to: cableEndText(to) },
      };
    }
  },

  message: ({ cable, from, to }) =>
    `${cable} runs from ${from} to ${to}, and no line of \`wiring\` does`,
});

/** A run carries signals one way: from where it starts. */
function isWired({ wiring }: Room, { from, to }: Cable): boolean {
  return wiring.some((wire) => isAt(wire.from, from) && isAt(wire.to, to));
}

/** A port's channel, as in `net.1`, goes over the same plug. */
function isAt(wire: { readonly device: string; readonly port: string }, end: CableEnd): boolean {
  if (wire.device !== end.device) return false;
  return end.port === null || wire.port === end.port || wire.port.startsWith(`${end.port}.`);
}
