// Level of a recorded or made signal against full scale.

/**
 * RMS level, of which a full-scale sine has 0 dBFS.
 *
 * @param signal full scale is ±1
 * @returns minus infinity for silence
 * @source AES17-2015: 0 dBFS is the level of a sine whose peak is full scale (from memory)
 */
export function rms_dbfs(signal: ArrayLike<number>): number {
  return 10 * Math.log10(2 * meanSquare(signal));
}

/** Highest sample, 0 dBFS at full scale; minus infinity for silence. */
export function peak_dbfs(signal: ArrayLike<number>): number {
  let peak = 0;
  for (let i = 0; i < signal.length; i++) {
    const size = Math.abs(signal[i] as number);
    if (peak < size) peak = size;
  }
  return 20 * Math.log10(peak);
}

/** Amplitude of a sine of a level. */
export function sineAmplitude_ratio(level_dbfs: number): number {
  return 10 ** (level_dbfs / 20);
}

function meanSquare(signal: ArrayLike<number>): number {
  let sum = 0;
  for (let i = 0; i < signal.length; i++) sum += (signal[i] as number) ** 2;
  return signal.length === 0 ? 0 : sum / signal.length;
}
