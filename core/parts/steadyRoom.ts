// The steady room: a room whose unchanged fields are the very same objects as last time.
//
// A room is parsed anew at each keystroke, so that nothing in it is ever the same object. Here each field is compared with the
// last one, once; all parts then see at a glance whether what they depend on has changed.

import type { Room, Speaker } from '../../schema/model/room.ts';

/** A room with steady fields, and its loudspeakers and subwoofers without their places, which the wiring does not ask for. */
export interface SteadyRoom {
  readonly room: Room;
  readonly wired: Pick<Room, 'speakers' | 'subwoofers'>;
}

/** A worker that remembers the last room. */
export function createSteadyRoom(): (room: Room) => SteadyRoom {
  return sameAnswer(createSteadyFields());
}

/** Nothing of a room needs a look that is the last one itself, or reads the same from end to end. */
function sameAnswer(steadyFields: (room: Room) => SteadyRoom): (room: Room) => SteadyRoom {
  let last: { readonly given: Room; readonly answer: SteadyRoom } | null = null;
  return (room) => {
    if (last !== null && room === last.given) return last.answer;
    const answer = steadyFields(room);
    const isSame = last !== null && sameFields(answer, last.answer);
    last = { given: room, answer: last !== null && isSame ? last.answer : answer };
    return last.answer;
  };
}

function sameFields(one: SteadyRoom, other: SteadyRoom): boolean {
  const before = new Map<string, unknown>(Object.entries(other.room));
  const now = Object.entries(one.room);
  return (
    now.length === before.size &&
    now.every(([name, value]) => before.has(name) && before.get(name) === value) &&
    one.wired.speakers === other.wired.speakers &&
    one.wired.subwoofers === other.wired.subwoofers
  );
}

function createSteadyFields(): (room: Room) => SteadyRoom {
  const fields = new Map<string, ReturnType<typeof steady>>();
  const wired = { speakers: steady(), subwoofers: steady() };
  return (room) => {
    const kept = Object.fromEntries(
      Object.entries(room).map(([name, value]) => {
        const keep = fields.get(name) ?? steady();
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

/** Gives the last value again while a new one reads the same; of a list that does not, the items that do. */
function steady(): (value: unknown) => unknown {
  let last: { readonly value: unknown } | null = null;
  return (given) => {
    const value = last === null ? given : kept(given, last.value);
    last = { value };
    return value;
  };
}

function kept(given: unknown, old: unknown): unknown {
  if (!Array.isArray(given) || !Array.isArray(old)) return isSameData(given, old) ? old : given;
  const items = given.map((item, index) => {
    if (isSameData(item, old[index])) return old[index];
    // Something was put in or taken out before it.
    const other = old.find((one) => idOf(one) !== undefined && idOf(one) === idOf(item));
    return other !== undefined && isSameData(item, other) ? other : item;
  });
  return items.length === old.length && items.every((item, i) => item === old[i]) ? old : items;
}

function idOf(item: unknown): unknown {
  return typeof item === 'object' && item !== null && 'id' in item ? item.id : undefined;
}

/** Whether plain data reads the same from end to end, with its keys in the same order. */
function isSameData(one: unknown, other: unknown): boolean {
  if (Object.is(one, other)) return true;
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null)
    return false;
  const names = Object.keys(one);
  const others = Object.keys(other);
  if (names.length !== others.length || Array.isArray(one) !== Array.isArray(other)) return false;
  for (let i = 0; i < names.length; i++) {
    const name = names[i] as keyof typeof one;
    if (name !== others[i] || !isSameData(one[name], other[name])) return false;
  }
  return true;
}

/** What of a loudspeaker says where it stands, and nothing of its signal. */
export const PLACE_FIELDS: readonly PlaceField[] = ['at', 'aim', 'flushIn'];

function placeless(speakers: readonly Speaker[]): readonly Speaker[] {
  const none = { at: null, aim: null, flushIn: null } satisfies Record<PlaceField, null>;
  return speakers.map((speaker) => ({ ...speaker, ...none }));
}

type PlaceField = 'at' | 'aim' | 'flushIn';
