// How much later a bass source is than predicted, and whether it is turned over, from the phases of both: the room's own part falls out.

import type { Prediction } from './plan.ts';
import type { TakeData } from './sessionData.ts';

/** Farther apart than this, bass is another take. */
const MOST_S = 0.015;
const STEP_S = 2e-4;

export interface PhaseLag {
  readonly late_s: number;
  readonly isTurned: boolean;
  /** 1 where both phases then agree throughout, 0 where they have nothing to do with each other. */
  readonly agreement: number;
}

/**
 * The delay and the sign that bring both phases together best, weighted by the predicted power.
 *
 * @returns null without phases on either side
 * @source maximum of the real part of the cross spectrum's transform, Knapp & Carter, IEEE Trans. ASSP 24 (1976) 320, with our own weight
 */
export function phaseLag(
  phases: TakeData['phases'],
  prediction: Prediction | undefined,
  frequency_hz: readonly number[],
): PhaseLag | null {
  const { level_db, phase_rad } = prediction ?? {};
  if (phases.length === 0 || !level_db || !phase_rad) return null;
  const best_db = Math.max(...phases.map(({ at }) => level_db[at] ?? 0));
  const parts = phases.map(({ at, phase_rad: measured }) => ({
    omega: 2 * Math.PI * (frequency_hz[at] ?? 0),
    off: measured - (phase_rad[at] ?? 0),
    // Amplitude, not power: one mode alone tells no delay.
    weight: 10 ** (((level_db[at] ?? 0) - best_db) / 20),
  }));
  const together = (late_s: number) =>
    parts.reduce((sum, { omega, off, weight }) => sum + weight * Math.cos(off + omega * late_s), 0);
  let best = { late_s: 0, height: together(0) };
  const look = (late_s: number) => {
    const height = together(late_s);
    if (Math.abs(best.height) < Math.abs(height)) best = { late_s, height };
  };
  for (let late_s = -MOST_S; late_s <= MOST_S; late_s += STEP_S) look(late_s);
  for (let step = STEP_S / 2; 2e-6 < step; step /= 2) {
    const { late_s } = best;
    look(late_s - step);
    look(late_s + step);
  }
  const whole = parts.reduce((sum, { weight }) => sum + weight, 0);
  return {
    late_s: best.late_s,
    isTurned: best.height < 0,
    agreement: Math.abs(best.height) / whole,
  };
}
