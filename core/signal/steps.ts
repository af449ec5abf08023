// Steps: which values a control can really take, and the one nearest to what is wanted.

import type { Steps } from '../../schema/model/gear.ts';

/** Relative room for what decimal text and binary fractions leave between two equal numbers. */
const HAIR = 1e-9;

/** Whether two values of a control are the same setting. */
export function sameValue(a: number, b: number): boolean {
  return Math.abs(a - b) <= HAIR * Math.max(1e-3, Math.abs(a), Math.abs(b));
}

/** The value of a control nearest to `wanted`; `wanted` itself where nothing limits it. Ties go down. */
export function nearestStep(wanted: number, steps: Steps): number {
  if (steps.choices !== null && 0 < steps.choices.length) {
    return steps.choices.reduce((best, choice) =>
      Math.abs(choice - wanted) < Math.abs(best - wanted) ? choice : best,
    );
  }
  const inside = clamp(wanted, steps);
  const { min, max, step } = steps;
  if (step === null || !(0 < step)) return inside;
  const origin = min ?? 0;
  const count = Math.round((inside - origin) / step - HAIR);
  const rounded = origin + count * step;
  if (max !== null && max + HAIR * step < rounded) return rounded - step;
  return rounded;
}

/** The least value of a control that is not below `wanted`; the greatest where all are. */
export function stepAtOrAbove(wanted: number, steps: Steps): number {
  if (steps.choices !== null && 0 < steps.choices.length) {
    const sorted = [...steps.choices].sort((a, b) => a - b);
    return sorted.find((choice) => wanted <= choice * (1 + HAIR)) ?? sorted.at(-1) ?? wanted;
  }
  const nearest = nearestStep(wanted, steps);
  const { max, step } = steps;
  if (step === null || wanted <= nearest * (1 + HAIR)) return nearest;
  const above = nearest + step;
  return max !== null && max * (1 + HAIR) < above ? nearest : above;
}

/** Whether a value lies outside what the control reaches: by how much, > 0; 0 inside. */
export function beyondRange(value: number, { min, max, choices }: Steps): number {
  const least = choices === null || choices.length === 0 ? min : Math.min(...choices);
  const most = choices === null || choices.length === 0 ? max : Math.max(...choices);
  if (least !== null && value < least && !sameValue(value, least)) return least - value;
  if (most !== null && most < value && !sameValue(value, most)) return value - most;
  return 0;
}

/**
 * All values between two bounds, ascending, thinned evenly in octaves to at most `most`; for a control without steps as
 * many values, evenly in octaves.
 */
export function stepsBetween(
  from: number,
  to: number,
  steps: Steps,
  most: number,
): readonly number[] {
  if (steps.choices !== null && 0 < steps.choices.length) {
    const inside = steps.choices.filter((choice) => from <= choice && choice <= to);
    return [...inside].sort((a, b) => a - b);
  }
  const low = clamp(Math.max(from, Number.MIN_VALUE), steps);
  const high = clamp(to, steps);
  if (!(low < high)) return [nearestStep(low, steps)];
  const even = Array.from({ length: most }, (_, i) => low * (high / low) ** (i / (most - 1)));
  const values = new Set(even.map((value) => nearestStep(value, steps)));
  return [...values];
}

function clamp(value: number, { min, max }: Steps): number {
  return Math.min(Math.max(value, min ?? -Infinity), max ?? Infinity);
}
