// How a control takes its values: `{ min, max, step }` or `{ choices }` of a gear file as Steps in SI.

import type { Steps } from '../model/gear.ts';
import { below, itemsOf, type Place } from './place.ts';
import { type Reading, tell } from './reading.ts';
import type { SiDimension } from './si.ts';
import { number, quantity, si } from './values.ts';

/** Any value will do: for what a model does not say. */
export const ANY: Steps = { min: null, max: null, step: null, choices: null };

/** Steps of a quantity of one dimension. */
export function steps(reading: Reading, place: Place, dimension: SiDimension): Steps {
  return stepsBy(reading, place, (value) => si(reading, value, dimension, 'optional'));
}

/** Steps of a plain number, such as Q. */
export function numberSteps(reading: Reading, place: Place): Steps {
  return stepsBy(reading, place, (value) => number(reading, value, 'optional'));
}

/** Steps of a level in volts. A step in dB is no step in volts: it is left open. */
export function voltageSteps(reading: Reading, place: Place): Steps {
  const read = (value: Place) =>
    quantity(reading, value, ['voltage', 'full_scale'], 'optional')?.value ?? null;
  const { min, max, choices } = stepsBy(reading, place, read);
  return { min, max, step: null, choices };
}

/** Steps whose values `read` turns into numbers. A range that runs backwards is told and left open. */
export function stepsBy(
  reading: Reading,
  place: Place,
  read: (place: Place) => number | null,
): Steps {
  const list = below(place, 'choices');
  if (list.value !== null) {
    const choices = itemsOf(list)
      .map(read)
      .filter((value) => value !== null);
    choices.sort((a, b) => a - b);
    return { min: null, max: null, step: null, choices: choices.length === 0 ? null : choices };
  }
  const min = read(below(place, 'min'));
  const max = read(below(place, 'max'));
  const step = read(below(place, 'step'));
  if (min !== null && max !== null && max < min) {
    tell(reading, below(place, 'max'), {
      code: 'format/range-backwards',
      message: '`max` is less than `min`',
    });
    return ANY;
  }
  return { min, max, step: step !== null && 0 < step ? step : null, choices: null };
}
