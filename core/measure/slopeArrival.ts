// When a band-limited source (a subwoofer) arrives, from the slope of its phase: its impulse response has no sharp peak.

export interface SlopeArrival {
  /** Slope of the phase beyond minimum phase: the way through the air and pure delays, without what filters add. */
  readonly arrival_s: number;
  /** Slope of the whole phase: with the filters' own group delay, as an ear or a crossover meets it. */
  readonly groupDelay_s: number;
  /** 1 or −1: whether the phase beyond minimum phase starts at 0 or at a half turn. */
  readonly sign: 1 | -1;
  /** How far its start is from the nearer of the two, 0 … π/2. */
  readonly signDoubt_rad: number;
  /** Scatter of the phase about the line. */
  readonly scatter_rad: number;
  readonly from_hz: number;
  readonly to_hz: number;
}

/**
 * Least-squares slopes over a band, weighted by power.
 *
 * @param spectrum interleaved, of a response that starts near its arrival, bins 0 … a power of two
 * @param binWidth_hz from bin to bin
 * @param start_s time of the first sample, added to the results
 * @param guess_s roughly where the energy lies, after the first sample: steadies the unwrapping
 * @param least the minimum phase at each bin, radians
 * @returns null where the band holds fewer than four bins
 */
export function slopeArrival(
  spectrum: Float64Array,
  binWidth_hz: number,
  [from_hz, to_hz]: readonly [number, number],
  start_s: number,
  guess_s: number,
  least: Float64Array,
): SlopeArrival | null {
  const first = Math.max(1, Math.ceil(from_hz / binWidth_hz));
  const last = Math.min(spectrum.length / 2 - 2, Math.floor(to_hz / binWidth_hz));
  if (last - first < 3) return null;
  const count = last - first + 1;
  const omega = new Float64Array(count);
  const weight = new Float64Array(count);
  const whole = new Float64Array(count);
  const excess = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    const k = first + i;
    const re = spectrum[2 * k] as number;
    const im = spectrum[2 * k + 1] as number;
    omega[i] = 2 * Math.PI * k * binWidth_hz;
    weight[i] = re * re + im * im;
    const turned = Math.atan2(im, re) + (omega[i] as number) * guess_s;
    whole[i] = near(turned, i === 0 ? 0 : (whole[i - 1] as number));
    excess[i] = near(turned - (least[k] as number), i === 0 ? 0 : (excess[i - 1] as number));
  }
  const wholeLine = lineThrough(omega, whole, weight);
  const excessLine = lineThrough(omega, excess, weight);
  const halfTurns = Math.round(excessLine.start / Math.PI);
  return {
    arrival_s: start_s + guess_s - excessLine.slope,
    groupDelay_s: start_s + guess_s - wholeLine.slope,
    sign: halfTurns % 2 === 0 ? 1 : -1,
    signDoubt_rad: Math.abs(excessLine.start - halfTurns * Math.PI),
    scatter_rad: excessLine.scatter,
    from_hz,
    to_hz,
  };
}

/** An angle brought by whole turns to within half a turn of another. */
function near(angle: number, other: number): number {
  return angle - 2 * Math.PI * Math.round((angle - other) / (2 * Math.PI));
}

function lineThrough(
  x: Float64Array,
  y: Float64Array,
  weight: Float64Array,
): { readonly slope: number; readonly start: number; readonly scatter: number } {
  let sum = 0;
  let sx = 0;
  let sy = 0;
  for (let i = 0; i < x.length; i++) {
    const w = weight[i] as number;
    sum += w;
    sx += w * (x[i] as number);
    sy += w * (y[i] as number);
  }
  let xx = 0;
  let xy = 0;
  for (let i = 0; i < x.length; i++) {
    const dx = (x[i] as number) - sx / sum;
    xx += (weight[i] as number) * dx * dx;
    xy += (weight[i] as number) * dx * ((y[i] as number) - sy / sum);
  }
  const slope = xy / xx;
  const start = sy / sum - (slope * sx) / sum;
  let left = 0;
  for (let i = 0; i < x.length; i++)
    left += (weight[i] as number) * ((y[i] as number) - start - slope * (x[i] as number)) ** 2;
  return { slope, start, scatter: Math.sqrt(left / sum) };
}
