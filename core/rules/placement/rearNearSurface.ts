// Rule placement/rear-near-surface: behind each loudspeaker there is room for its port, its cables and its heat.

import type { Point } from '../../../schema/model/quantities.ts';
import type { Room, Speaker } from '../../../schema/model/room.ts';
import { referenceSeat } from '../../parts/referenceSeat.ts';
import { roomShape } from '../../parts/roomShape.ts';
import { defineRule, type Rule } from '../rule.ts';
import { surfaceName } from '../surfaceName.ts';
import { type Behind, behind } from './behind.ts';

interface Fact extends Behind {
  readonly id: string;
  readonly isVented: boolean;
  readonly limit_m: number;
}

/** A port needs about its own diameter or two: common practice, no source. */
const PORT_M = 0.1;
/** Plugs bend and amplifiers cool in this much: common practice, no source. */
const REAR_M = 0.05;

export const rearNearSurface: Rule = defineRule<Fact>({
  code: 'placement/rear-near-surface',
  severity: 'information',
  title: 'Rear near a surface',
  reason:
    'A port close to a wall is tuned lower and blows noisily, plugs are bent, and what cools the amplifier has no air.',
  advice: 'Move it forward, or turn it so that port and connectors are free.',
  source:
    '10 cm behind a vented box, 5 cm behind others: common practice, no source; a maker’s own figure comes first',

  *find({ room }) {
    const shape = roomShape(room.space);
    if (shape === null) return;
    for (const speaker of room.speakers) {
      const { id, gear, flushIn } = speaker;
      const front = frontOf(room, speaker);
      if (front === null || flushIn !== null || !gear?.size) continue;
      const found = behind(shape, front.at, front.towards, gear.size.depth_m);
      const isVented = gear.lowEnd?.kind === 'vented';
      const limit_m = isVented ? PORT_M : REAR_M;
      if (found === null || limit_m - 1e-6 <= found.clear_m) continue;
      yield {
        path: ['speakers', id, 'at'],
        fact: { id, isVented, limit_m, ...found },
        severity: found.clear_m < 0 ? 'warning' : 'information',
        measured: { value: found.clear_m, unit: 'm' },
        limit: { value: limit_m, unit: 'm' },
      };
    }
  },

  message: ({ id, surface, clear_m, limit_m, isVented }, show) =>
    clear_m < 0
      ? `The rear of ${id} would reach ${show.smallLength(-clear_m)} into the ${surfaceName(surface)}`
      : `The rear of ${id}${isVented ? ' (vented)' : ''} is ${show.smallLength(clear_m)} from the ${surfaceName(surface)}; ${show.smallLength(limit_m)} or more leaves it free`,
});

/** Its front and where it looks; null where either is not known. */
function frontOf(
  room: Room,
  { at, aim, aimAt }: Speaker,
): { readonly at: Point; readonly towards: Point } | null {
  const seat = aim === null ? referenceSeat(room) : room.seats.find(({ id }) => id === aim);
  const towards = aimAt ?? seat?.at ?? null;
  return at === null || towards === null ? null : { at, towards };
}
