// The modes of a room that is no box, with what drives each and what hears it.

import { decayTime_s, modalBandwidth_hz } from '../acoustics/modalDecay.ts';
import type { FieldMode } from '../fieldFigures.ts';
import type { PlacedSource } from '../parts/referenceSeat.ts';
import type { FieldContext } from './context.ts';
import type { RoomField } from './roomField.ts';

/** As in the list of a box's modes. */
const TO_HZ = 200;

/** null for boxes, whose modes have a formula. */
export function fieldModes(
  field: RoomField,
  sources: readonly PlacedSource[],
  seats: FieldContext['seats'],
): readonly FieldMode[] | null {
  if (field.modes === null) return null;
  const { modes, damping_per_s } = field.modes();
  const driven = sources.map(({ id, at }) => ({ id, shapes: modes.shapesAt(at) }));
  const heard = seats.map(({ id, at }) => ({ id, shapes: modes.shapesAt(at) }));
  return modes.frequency_hz.flatMap((frequency_hz, mode): readonly FieldMode[] => {
    if (TO_HZ < frequency_hz) return [];
    const damping = damping_per_s[mode] ?? 0;
    const time_s = 0 < damping ? decayTime_s(damping) : null;
    const strength = (shapes: Float64Array) =>
      Math.round(Math.abs(shapes[mode] ?? 0) * 1000) / 1000;
    return [
      {
        frequency_hz,
        decayTime_s: time_s,
        bandwidth_hz: time_s === null ? null : modalBandwidth_hz(time_s),
        drivenBy: driven.map(({ id, shapes }) => ({ source: id, strength: strength(shapes) })),
        heardAt: heard.map(({ id, shapes }) => ({ seat: id, strength: strength(shapes) })),
      },
    ];
  });
}
