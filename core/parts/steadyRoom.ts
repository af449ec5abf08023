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

/** Gives the last value again while a new one reads the same; of a list that does not, the items that do. */
function steady(textOf: (value: unknown) => string): (value: unknown) => unknown {
  let last: {
    readonly given: unknown;
    readonly texts: readonly string[];
    readonly value: unknown;
  } | null = null;
  return (given) => {
    if (last !== null && given === last.given) return last.value;
    const texts = Array.isArray(given) ? given.map(textOf) : [textOf(given)];
    const isList = Array.isArray(given) && Array.isArray(last?.value);
    const isSame =
      last !== null &&
      Array.isArray(given) === Array.isArray(last.value) &&
      sameTexts(texts, last.texts);
    const value = isSame
      ? last?.value
      : isList && last !== null
        ? withKept(given, texts, last.value as readonly unknown[], last.texts)
        : given;
    last = { given, texts, value };
    return value;
  };
}

function sameTexts(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((text, index) => text === other[index]);
}

/** The new list with the very items of the old one where they read the same, wherever they stood. */
function withKept(
  given: readonly unknown[],
  texts: readonly string[],
  old: readonly unknown[],
  oldTexts: readonly string[],
): readonly unknown[] {
  const kept = new Map(oldTexts.map((text, index) => [text, old[index]]));
  return given.map((item, index) => {
    const text = texts[index] ?? '';
    return kept.has(text) ? kept.get(text) : item;
  });
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
    if (!isGeared(value)) return JSON.stringify(value) ?? '';
    return `${JSON.stringify({ ...value, gear: null })}\n${gearText(value.gear)}`;
  };
}

type Geared = { readonly gear: Gear | null };

function isGeared(value: unknown): value is Geared {
  return typeof value === 'object' && value !== null && 'gear' in value;
}

/** What of a loudspeaker says where it stands, and nothing of its signal. */
export const PLACE_FIELDS: readonly PlaceField[] = ['at', 'aim', 'flushIn'];

function placeless(speakers: readonly Speaker[]): readonly Speaker[] {
  const none = { at: null, aim: null, flushIn: null } satisfies Record<PlaceField, null>;
  return speakers.map((speaker) => ({ ...speaker, ...none }));
}

type PlaceField = 'at' | 'aim' | 'flushIn';
