// Memo: a part of the Setup keeps its last answer and gives it again while what it depends on is the same.

import type { Room } from '../../schema/model/room.ts';

/**
 * Wraps a part so that the same inputs give the very same answer again. Inputs are compared by reference: fields of a room are
 * made steady first (`steadyRoom`), answers of other parts are steady themselves. One answer is kept, for one worker serves
 * one file.
 *
 * @param keys the fields of the room that the part may look at: the compiler sees to it that these are all
 * @param compute a pure function of the room and of other parts' answers
 */
export function memoPart<Key extends keyof Room, Others extends readonly unknown[], Answer>(
  keys: readonly Key[],
  compute: (room: Pick<Room, Key>, ...others: Others) => Answer,
): (room: Pick<Room, Key>, ...others: Others) => Answer {
  let last: { readonly inputs: readonly unknown[]; readonly answer: Answer } | null = null;
  return (room, ...others) => {
    const inputs = [...keys.map((key) => room[key]), ...others];
    if (last === null || !isSameList(last.inputs, inputs))
      last = { inputs, answer: compute(room, ...others) };
    return last.answer;
  };
}

function isSameList(one: readonly unknown[], other: readonly unknown[]): boolean {
  return one.length === other.length && one.every((item, index) => item === other[index]);
}

/** The same for what depends on other things than the room's fields. */
export function memoLast<Inputs extends readonly unknown[], Answer>(
  compute: (...inputs: Inputs) => Answer,
): (...inputs: Inputs) => Answer {
  const memo = memoPart([], (_: object, ...inputs: Inputs) => compute(...inputs));
  return (...inputs) => memo({}, ...inputs);
}

/**
 * For what is worked out of each of several things alone: a thing that is the same object as last time keeps its answer, as long
 * as the other inputs are the same.
 */
export function memoEach<Thing extends object, Others extends readonly unknown[], Answer>(
  compute: (thing: Thing, ...others: Others) => Answer,
): (things: readonly Thing[], ...others: Others) => readonly Answer[] {
  let last: { readonly others: Others; readonly known: ReadonlyMap<Thing, Answer> } | null = null;
  return (things, ...others) => {
    const before = last !== null && isSameList(last.others, others) ? last.known : undefined;
    const known = new Map<Thing, Answer>();
    const answers = things.map((thing) => {
      const answer = before?.get(thing) ?? compute(thing, ...others);
      known.set(thing, answer);
      return answer;
    });
    last = { others, known };
    return answers;
  };
}

/** For several like things that have a name: each keeps its last answer, compared by reference, whatever becomes of the others. */
export function memoNamed<Inputs extends readonly unknown[], Answer>(
  compute: (...inputs: Inputs) => Answer,
): (name: string, ...inputs: Inputs) => Answer {
  const workers = new Map<string, (...inputs: Inputs) => Answer>();
  return (name, ...inputs) => {
    const worker = workers.get(name) ?? memoLast(compute);
    if (MOST_NAMES < workers.size) workers.clear(); // of things long gone, most of them
    workers.set(name, worker);
    return worker(...inputs);
  };
}

/** More ways than any room has. */
const MOST_NAMES = 2000;

/** How many answers `memoMany` keeps: more crossovers than any room has. */
const MOST_KEPT = 48;

/** Compares small plain inputs as JSON text and keeps several answers, so that one of several like things can change alone. */
export function memoMany<Inputs extends readonly unknown[], Answer>(
  compute: (...inputs: Inputs) => Answer,
): (...inputs: Inputs) => Answer {
  const kept = new Map<string, Answer>();
  const textOf = textWorker();
  return (...inputs) => {
    const key = textOf(inputs);
    const answer = kept.get(key) ?? compute(...inputs);
    kept.delete(key);
    kept.set(key, answer);
    const [oldest] = kept.keys();
    if (MOST_KEPT < kept.size && oldest !== undefined) kept.delete(oldest);
    return answer;
  };
}

/** Texts of plain data; of an object that was met before it is known: nothing is changed in place. */
function textWorker(): (data: unknown) => string {
  const known = new WeakMap<object, string>();
  const textOf = (data: unknown): string => {
    if (typeof data !== 'object' || data === null) return JSON.stringify(data) ?? '';
    const text = known.get(data) ?? textOfObject(data);
    known.set(data, text);
    return text;
  };
  const textOfObject = (data: object): string =>
    Array.isArray(data)
      ? `[${data.map(textOf).join()}]`
      : `{${Object.entries(data).map(([name, value]) => `${JSON.stringify(name)}:${textOf(value)}`)}}`;
  return textOf;
}
