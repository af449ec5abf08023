// The frequency axis that all charts over frequency share: logarithmic, with the grid lines of the trade's paper.

import { type ScaleLogarithmic, scaleLog } from 'd3-scale';
import type { Tick } from './plot.tsx';

const WORDED_HZ: readonly number[] = [10, 20, 50, 100, 200, 500, 1000, 2000, 5000, 10_000, 20_000];

/** Frequency to share of the width, clamped: what lies outside is drawn at the edge. */
export function frequencyScale(from_hz: number, to_hz: number): ScaleLogarithmic<number, number> {
  return scaleLog().domain([from_hz, to_hz]).range([0, 1]).clamp(true);
}

/** Grid lines at 1 … 9 of each decade, words at 1, 2 and 5. */
export function frequencyTicks(from_hz: number, to_hz: number): readonly Tick[] {
  const scale = frequencyScale(from_hz, to_hz);
  const lines_hz = [1, 10, 100, 1000, 10_000]
    .flatMap((decade) => [1, 2, 3, 4, 5, 6, 7, 8, 9].map((digit) => digit * decade))
    .filter((frequency_hz) => from_hz <= frequency_hz && frequency_hz <= to_hz);
  return lines_hz.map((frequency_hz) => ({
    share: scale(frequency_hz),
    text: WORDED_HZ.includes(frequency_hz) ? String(frequency_hz) : '',
  }));
}
