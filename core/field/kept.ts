// Stores that keep answers: the last few by a text key, or one a name as long as its inputs are the very same.

/** The answer for a key: the kept one, or a new one. */
export type Kept<Answer> = (key: string, make: () => Answer) => Answer;

/** @param most how many are kept; the one that was not asked for longest goes first */
export function kept<Answer>(most: number): Kept<Answer> {
  const store = new Map<string, Answer>();
  return (key, make) => {
    const answer = store.get(key) ?? make();
    store.delete(key);
    store.set(key, answer);
    const [oldest] = store.keys();
    if (most < store.size && oldest !== undefined) store.delete(oldest);
    return answer;
  };
}

/** The answer for a name: the kept one while every input is the very same object or value, or a new one. */
export type Remembered<Answer> = (
  name: string,
  inputs: readonly unknown[],
  make: () => Answer,
) => Answer;

/** @param most names; the one that was not asked for longest goes first */
export function remembered<Answer>(most: number): Remembered<Answer> {
  const keep = kept<{ inputs: readonly unknown[]; answer: Answer }>(most);
  return (name, inputs, make) => {
    const slot = keep(name, () => ({ inputs, answer: make() }));
    const isSame =
      slot.inputs.length === inputs.length &&
      inputs.every((input, index) => input === slot.inputs[index]);
    if (!isSame) {
      slot.inputs = inputs;
      slot.answer = make();
    }
    return slot.answer;
  };
}
