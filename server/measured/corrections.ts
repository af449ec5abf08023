// The responses of the microphone and of the measuring interface, joined into one curve that is taken off.

import { type LevelCurve, levelAt_db } from '../../core/measure/correction.ts';
import type { TakeFault } from '../../core/measured/measuredFigures.ts';
import { textOf } from '../measure/measurement.ts';
import { readResponse } from '../measure/readResponse.ts';

export interface CorrectionFile {
  /** As the room file names it. */
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** @returns null for the curve where there is none that can be read; those that cannot are told */
export function correctionOf(files: readonly CorrectionFile[]): {
  readonly curve: LevelCurve | null;
  readonly names: readonly string[];
  readonly faults: readonly TakeFault[];
} {
  const read = files.map(({ name, bytes }) => {
    const text = textOf(bytes);
    return { name, curve: text === null ? null : readResponse(text).data };
  });
  const sound = read.flatMap(({ name, curve }) => (curve === null ? [] : [{ name, curve }]));
  return {
    curve: sound.map(({ curve }): LevelCurve => curve).reduce(joined, null),
    names: sound.map(({ name }) => name),
    faults: read.flatMap(({ name, curve }): readonly TakeFault[] =>
      curve !== null
        ? []
        : [
            {
              code: 'measurement/correction',
              severity: 'warning',
              message: `\`${name}\` is no response in text: nothing is taken off for it`,
            },
          ],
    ),
  };
}

/** Both at the frequencies of either; beyond its ends a curve keeps its last value, as where it is taken off. */
function joined(one: LevelCurve | null, other: LevelCurve): LevelCurve {
  if (one === null) return other;
  const all = new Set([...one.frequencies_hz, ...other.frequencies_hz]);
  const frequencies_hz = Float64Array.from(all).sort();
  return {
    frequencies_hz,
    levels_db: frequencies_hz.map((f) => heldAt_db(one, f) + heldAt_db(other, f)),
  };
}

function heldAt_db(curve: LevelCurve, frequency_hz: number): number {
  const from_hz = curve.frequencies_hz[0] as number;
  const to_hz = curve.frequencies_hz.at(-1) as number;
  return levelAt_db(curve, Math.min(to_hz, Math.max(from_hz, frequency_hz)));
}
