// Takes as files: what a recorder would have written of a system that is written down here.

import { convolved } from '../../core/measure/fourier.ts';
import { sweepTrain } from '../../core/measure/sweep.ts';
import { sweepTag } from '../../server/measure/sweepTag.ts';
import { type SampleFormat, writeWav } from '../../server/measure/writeWav.ts';
import type { TakeFiles } from '../../server/measured/readTake.ts';
import { DESIGN, hiss, impulseAt, RATE_HZ, sum, tail } from '../measure/takes.ts';

/** Half-second impulses are what people keep. */
export const LENGTH_S = 1.2;

/** A direct sound and a diffuse tail behind it, over a little noise. */
export function roomImpulse(delay_s: number, height: number, decayTime_s = 0.3): Float64Array {
  return sum(
    impulseAt(delay_s, height, LENGTH_S),
    tail(3, decayTime_s, 0.02 * height, delay_s, LENGTH_S),
    hiss(5, Math.round(LENGTH_S * RATE_HZ)).map((value) => 1e-6 * value),
  );
}

export function wavOf(
  channels: readonly Float64Array[],
  format: SampleFormat = '24',
  sampleRate_hz: number = RATE_HZ,
): Uint8Array {
  return writeWav({ sampleRate_hz, format, channels });
}

/** The sweep as its maker writes it. */
export const SWEEP: Uint8Array = writeWav({
  sampleRate_hz: RATE_HZ,
  format: '24',
  channels: [sweepTrain(DESIGN)],
  comment: sweepTag(DESIGN),
});

/** What the microphone hears of the sweep, and the wire beside it; both late by the interface's latency. */
export function recordingOf(system: Float64Array, latency_s: number): readonly Float64Array[] {
  const played = sweepTrain(DESIGN);
  const wire = convolved(played, impulseAt(latency_s, 1, 0.2)).slice(0, played.length);
  return [convolved(wire, system).slice(0, played.length), wire];
}

export function take(file: Uint8Array, more: Partial<TakeFiles> = {}): TakeFiles {
  return {
    file,
    sweep: null,
    corrections: [],
    channel: 1,
    loopback: null,
    timing: null,
    ...more,
  };
}

export function textBytes(text: string): Uint8Array {
  return new TextEncoder().encode(text);
}
