// Raised-cosine fades at the ends of a signal, so that it neither clicks nor rings.

/**
 * Fades a signal in and out, in place.
 *
 * @param inCount samples of the fade at the start, 0 for none
 * @param outCount samples of the fade at the end, 0 for none
 */
export function fade(signal: Float64Array, inCount: number, outCount: number): void {
  for (let i = 0; i < Math.min(inCount, signal.length); i++)
    signal[i] = (signal[i] as number) * rise(i, inCount);
  for (let i = 0; i < Math.min(outCount, signal.length); i++) {
    const at = signal.length - 1 - i;
    signal[at] = (signal[at] as number) * rise(i, outCount);
  }
}

/** From 0 to 1 over a count of samples: half a cosine. */
function rise(index: number, count: number): number {
  return 0.5 - 0.5 * Math.cos((Math.PI * index) / count);
}
