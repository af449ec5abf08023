// The steady room: a room whose unchanged fields are the very same objects as last time.
//
// A room is parsed anew at each keystroke, so that nothing in it is ever the same object. Here each field is compared with the
// last one as JSON text, once; all parts then see at a glance whether what they depend on has changed.

import type { Gear } from '../../schema/model/gear.ts';
import type { Room, Speaker } from '../../schema/model/room.ts';

/** A room with steady fields, and its loudspeakers and subwoofers without their places, which the wiring does not ask for. */
export interface SteadyRoom {
  readonly room: Room;
  readonly wired: Pick<Room, 'speakers' | 'subwoofers'>;
}

/** A worker that remembers the last room. */
export function createSteadyRoom(): (room: Room) => SteadyRoom {
  const fields = new Map<string, ReturnType<typeof steady>>();
  const textOf = textWorker();
  const wired = { speakers: steady(textOf), subwoofers: steady(textOf) };
  return (room) => {
    const kept = Object.fromEntries(
      Object.entries(room).map(([name, value]) => {
        const keep = fields.get(name) ?? steady(textOf);
        fields.set(name, keep);
        return [name, keep(value)];
      }),
    ) as unknown as Room; // The same keys with equal values.
    return {
      room: kept,
      wired: {
        speakers: wired.speakers(placeless(kept.speakers)) as readonly Speaker[],
        subwoofers: wired.subwoofers(placeless(kept.subwoofers)) as readonly Speaker[],
      },
    };
  };
}

/** Gives the last value again while a new one reads the same. */
function steady(textOf: (value: unknown) => string): (value: unknown) => unknown {
  let last: { readonly text: string; readonly value: unknown } | null = null;
  return (value) => {
    const text = textOf(value);
    if (last === null || last.text !== text) last = { text, value };
    return last.value;
  };
}

/** Gear is large and shared by many things: its text is worked out once for each object. */
function textWorker(): (value: unknown) => string {
  const known = new WeakMap<Gear, string>();
  const gearText = (gear: Gear | null): string => {
    if (gear === null) return 'null';
    const text = known.get(gear) ?? JSON.stringify(gear);
    known.set(gear, text);
    return text;
  };
  return (value) => {
    if (!isListOfGeared(value)) return JSON.stringify(value) ?? '';
    const rest = value.map((thing) => ({ ...thing, gear: null }));
    return [JSON.stringify(rest), ...value.map(({ gear }) => gearText(gear))].join('\n');
  };
}

type Geared = { readonly gear: Gear | null };

function isListOfGeared(value: unknown): value is readonly Geared[] {
  return Array.isArray(value) && value.every((one) => typeof one === 'object' && 'gear' in one);
}

function placeless(speakers: readonly Speaker[]): readonly Speaker[] {
  return speakers.map((speaker) => ({ ...speaker, at: null, aim: null, flushIn: null }));
}
