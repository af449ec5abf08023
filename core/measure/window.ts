// The part of an impulse response that a spectrum is taken of, under a window with soft ends.

export interface ResponseWindow {
  /** Before and after the start of the sound. */
  readonly before_s: number;
  readonly after_s: number;
}

/** The end falls over so much of the part after the start of the sound, the beginning rises over so much of the part before. */
const END_RATIO = 0.25;
const BEGIN_RATIO = 0.5;

/**
 * @param startIndex where the sound starts
 * @returns as many samples as the window has; zeros beyond the ends of the signal
 */
export function windowed(
  signal: Float64Array,
  startIndex: number,
  { before_s, after_s }: ResponseWindow,
  sampleRate_hz: number,
): Float64Array {
  const before = Math.round(before_s * sampleRate_hz);
  const after = Math.round(after_s * sampleRate_hz);
  const end = Math.max(1, Math.round(END_RATIO * after));
  const begin = BEGIN_RATIO * before;
  return Float64Array.from({ length: before + after }, (_, i) => {
    const left = before === 0 ? 1 : rise(i / begin);
    const right = rise((before + after - 1 - i) / end);
    return (signal[startIndex - before + i] ?? 0) * left * right;
  });
}

/** What the window lets through of a steady noise, as the length of one that lets all of it through: ∫w² dt, 3/8 of each soft end. */
export function windowEnergy_s({ before_s, after_s }: ResponseWindow): number {
  const soft = 3 / 8;
  return (
    before_s * (BEGIN_RATIO * soft + 1 - BEGIN_RATIO) + after_s * (END_RATIO * soft + 1 - END_RATIO)
  );
}

/**
 * Where the sound starts: the first sample that is within 20 dB of the highest, no more than 100 ms before it.
 *
 * @source ISO 3382-1: the start is where the response rises to 20 dB below its maximum
 */
export function soundStartIndex(signal: Float64Array, sampleRate_hz: number): number {
  let peak = 0;
  for (let i = 1; i < signal.length; i++)
    if (Math.abs(signal[peak] as number) < Math.abs(signal[i] as number)) peak = i;
  const enough = Math.abs(signal[peak] ?? 0) / 10;
  for (let i = Math.max(0, peak - Math.round(0.1 * sampleRate_hz)); i < peak; i++)
    if (enough <= Math.abs(signal[i] as number)) return i;
  return peak;
}

function rise(share: number): number {
  if (1 <= share) return 1;
  return share <= 0 ? 0 : 0.5 - 0.5 * Math.cos(Math.PI * share);
}
