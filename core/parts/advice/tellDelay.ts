// Tells a device its delay: in its own unit, steps and range, whether it takes a time, samples, a length or a distance.

import type { Control, Steps } from '../../../schema/model/gear.ts';
import { beyondRange, nearestStep } from '../../signal/steps.ts';
import { lengthText, millisecondsText, samplesText } from './settingText.ts';

export type DelayControl = Extract<Control, { readonly kind: 'delay' }>;

export interface ToldDelay {
  readonly exact: string;
  readonly dialIn: string;
  /** The quantity that the device is told, as a time: the delay itself, or its distance by its own speed of sound. */
  readonly exact_s: number;
  readonly dialled_s: number;
  /** How far the exact answer lies outside the device's range, > 0; 0 inside. */
  readonly beyond_s: number;
  /** The steps that were used, seconds. */
  readonly steps: Steps;
}

/**
 * @param told_s the delay, or for `own_distance` the time that the device takes the distance for
 * @param rate_hz of the device, where a setting or its gear file tells; null where neither does
 * @returns null where the device counts in samples and no rate is known
 */
export function tellDelay(
  told_s: number,
  { toldAs, delay_s }: DelayControl,
  rate_hz: number | null,
): ToldDelay | null {
  if (toldAs.as === 'samples') {
    const known_hz = rate_hz ?? toldAs.rate_hz;
    if (known_hz === null) return null;
    const told = within(told_s, { ...delay_s, step: 1 / known_hz });
    return {
      ...told,
      exact: `${(told_s * known_hz).toFixed(1)} samples`,
      dialIn: samplesText(Math.round(told.dialled_s * known_hz)),
    };
  }
  if (toldAs.as === 'time') {
    const told = within(told_s, { ...delay_s, step: delay_s.step ?? WITHOUT_STEPS_S });
    return {
      ...told,
      exact: `${(told_s * 1000).toFixed(3)} ms`,
      dialIn: millisecondsText(told.dialled_s, told.steps.step),
    };
  }
  const speed_m_s = toldAs.speedOfSound_m_s;
  const told = within(told_s, { ...delay_s, step: delay_s.step ?? WITHOUT_STEPS_M / speed_m_s });
  return {
    ...told,
    exact: `${(told_s * speed_m_s).toFixed(3)} m`,
    dialIn: lengthText(told.dialled_s * speed_m_s, (told.steps.step ?? 0) * speed_m_s),
  };
}

/** As fine as anyone writes it down, where the gear file gives no step. */
const WITHOUT_STEPS_S = 0.00001;
const WITHOUT_STEPS_M = 0.01;

function within(
  exact_s: number,
  steps: Steps,
): Pick<ToldDelay, 'exact_s' | 'dialled_s' | 'beyond_s' | 'steps'> {
  return {
    exact_s,
    dialled_s: nearestStep(exact_s, steps),
    beyond_s: beyondRange(exact_s, steps),
    steps,
  };
}
