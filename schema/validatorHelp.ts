// What the compiled validators need at run time.

/** The length of a text in characters (code points), as JSON Schema counts. */
export function textLength(text: string): number {
  let length = 0;
  for (const _ of text) length++;
  return length;
}

/** Whether two items of a list are the same. Lists whose items must differ hold scalars only. */
export function sameScalar(a: unknown, b: unknown): boolean {
  return a === b;
}

/** The faults with one more. */
export function told(faults: unknown[] | null, fault: unknown): unknown[] {
  if (faults === null) return [fault];
  faults.push(fault);
  return faults;
}

/** The faults with those of an inner value. */
export function joined(faults: unknown[] | null, inner: unknown[]): unknown[] {
  return faults === null ? inner : faults.concat(inner);
}
