// A part of a circular signal: what lies before its start comes from its end.

/** @param startIndex of any size; < 0 lies before the start */
export function circularPart(
  signal: Float64Array,
  startIndex: number,
  count: number,
): Float64Array {
  const first = ((startIndex % signal.length) + signal.length) % signal.length;
  const part = new Float64Array(count);
  let done = Math.min(count, signal.length - first);
  part.set(signal.subarray(first, first + done));
  while (done < count) {
    const next = signal.subarray(0, Math.min(signal.length, count - done));
    part.set(next, done);
    done += next.length;
  }
  return part;
}
