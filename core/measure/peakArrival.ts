// When the direct sound of a full-range source arrives in an impulse response, finer than a sample, and with which sign.

/** The direct sound is the first peak that comes so near to the highest one. */
const NEAR_DB = 8;
/** Half the length of the interpolation's kernel, in samples. */
const REACH = 32;
const STEPS = 16;

export interface PeakArrival {
  /** Place of the peak in samples, with its fraction, over the sample rate. */
  readonly arrival_s: number;
  /** Of the peak: 1 or −1. */
  readonly sign: 1 | -1;
  /** Peak over the highest peak of the other sign within a millisecond. */
  readonly clearness_db: number;
  /** A later peak is higher by so much; 0 where the direct sound is the highest. */
  readonly laterHigher_db: number;
}

/** @returns null for a silent response */
export function peakArrival(impulse: Float64Array, sampleRate_hz: number): PeakArrival | null {
  let highestIndex = 0;
  for (let i = 1; i < impulse.length; i++)
    if (sizeAt(impulse, highestIndex) < sizeAt(impulse, i)) highestIndex = i;
  const highest = sizeAt(impulse, highestIndex);
  if (highest === 0) return null;
  const enough = highest * 10 ** (-NEAR_DB / 20);
  let directIndex = highestIndex;
  // No more than 20 ms before the highest: what lies further off is no direct sound but noise or distortion.
  for (let i = Math.max(1, highestIndex - Math.round(0.02 * sampleRate_hz)); i < highestIndex; i++)
    if (enough <= sizeAt(impulse, i) && sizeAt(impulse, i + 1) <= sizeAt(impulse, i)) {
      directIndex = i;
      break;
    }
  const sign = (impulse[directIndex] as number) < 0 ? -1 : 1;
  const place = topNear(impulse, directIndex, sign);
  const millisecond = Math.round(0.001 * sampleRate_hz);
  let other = 0;
  for (let i = directIndex - millisecond; i <= directIndex + millisecond; i++)
    other = Math.max(other, -sign * (impulse[i] ?? 0));
  return {
    arrival_s: place / sampleRate_hz,
    sign,
    clearness_db: 20 * Math.log10(sizeAt(impulse, directIndex) / Math.max(other, 1e-9 * highest)),
    laterHigher_db: 20 * Math.log10(highest / sizeAt(impulse, directIndex)),
  };
}

/** Where the interpolated signal is highest within a sample of a place. */
function topNear(impulse: Float64Array, index: number, sign: number): number {
  const values = Float64Array.from(
    { length: 2 * STEPS + 1 },
    (_, i) => sign * interpolated(impulse, index + (i - STEPS) / STEPS),
  );
  let best = 1;
  for (let i = 1; i < values.length - 1; i++)
    if ((values[best] as number) < (values[i] as number)) best = i;
  const before = values[best - 1] as number;
  const at = values[best] as number;
  const after = values[best + 1] as number;
  const bend = before - 2 * at + after;
  const fraction = bend < 0 ? Math.max(-1, Math.min(1, (before - after) / (2 * bend))) : 0;
  return index + (best - STEPS + fraction) / STEPS;
}

/** Between samples: a sinc under a raised cosine. */
function interpolated(signal: Float64Array, place: number): number {
  const middle = Math.floor(place);
  let sum = 0;
  for (let i = middle - REACH + 1; i <= middle + REACH; i++) {
    const x = place - i;
    const sinc = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
    sum += (signal[i] ?? 0) * sinc * (0.5 + 0.5 * Math.cos((Math.PI * x) / REACH));
  }
  return sum;
}

function sizeAt(signal: Float64Array, index: number): number {
  return Math.abs(signal[index] ?? 0);
}
