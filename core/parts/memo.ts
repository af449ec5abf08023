// Memo: a part of the Setup keeps its last answer and gives it again while what it depends on reads the same.

/**
 * Wraps a computation so that equal inputs give the very same answer again.
 *
 * Rooms are parsed anew at each keystroke, so that equality of references says nothing: the inputs are compared as JSON text.
 * One answer is kept, for one worker serves one file.
 *
 * @param compute a pure function of plain data
 */
export function memo<Inputs extends readonly unknown[], Answer>(
  compute: (...inputs: Inputs) => Answer,
): (...inputs: Inputs) => Answer {
  let last: { readonly key: string; readonly answer: Answer } | null = null;
  return (...inputs) => {
    const key = JSON.stringify(inputs);
    if (last?.key !== key) last = { key, answer: compute(...inputs) };
    return last.answer;
  };
}
