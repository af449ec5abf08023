// Numbers that lie between two steps of their control, inside its range: for delays and for all other settings.

import type { Control } from '../../../schema/model/gear.ts';
import type { Room } from '../../../schema/model/room.ts';
import { beyondRange, nearestStep } from '../../signal/steps.ts';
import type { Found } from '../rule.ts';
import { settingNumbers } from './numbers.ts';

export interface OffStep {
  readonly device: string;
  readonly told: string;
  readonly nearest: string;
}

/** A thousandth of a step is what decimals and unit conversions leave. */
const HAIR = 1e-3;

export function* offSteps(
  room: Room,
  isAsked: (kind: Control['kind']) => boolean,
): Generator<Found<OffStep>> {
  for (const { device, control, path, told, value, steps, unit, text } of settingNumbers(room)) {
    const isChoice = steps.choices !== null;
    if (!isAsked(control.kind) || isChoice || steps.step === null) continue;
    if (0 < beyondRange(value, steps)) continue;
    const nearest = nearestStep(value, steps);
    if (Math.abs(value - nearest) <= HAIR * steps.step) continue;
    const dialIn = text(nearest);
    yield {
      path,
      fact: { device, told, nearest: dialIn },
      measured: { value, unit },
      limit: { value: nearest, unit },
      fixes: [
        {
          title: `Round to ${dialIn}`,
          edits: [{ do: 'set', path, value: dialIn }],
          safe: true,
        },
      ],
    };
  }
}
