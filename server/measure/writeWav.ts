// Signals to the bytes of a WAV file. A library builds the container.

import wavefile from 'wavefile';

/** How samples are stored: integers of 16, 24 or 32 bits, or 32-bit float. */
export type SampleFormat = '16' | '24' | '32' | '32f';

export interface WavContent {
  readonly sampleRate_hz: number;
  readonly format: SampleFormat;
  /** All of the same length, full scale ±1. */
  readonly channels: readonly Float64Array[];
  /** Kept in the file as its comment. */
  readonly comment?: string;
}

/**
 * @throws RangeError where a sample is beyond full scale in an integer format: the caller must ask for less level
 */
export function writeWav({ sampleRate_hz, format, channels, comment }: WavContent): Uint8Array {
  const scale = format === '32f' ? 1 : 2 ** (Number(format) - 1) - 1;
  const scaled = channels.map((channel) =>
    format === '32f' ? channel : channel.map((value) => Math.round(checked(value) * scale)),
  );
  const file = new wavefile.WaveFile();
  file.fromScratch(channels.length, sampleRate_hz, format, scaled);
  if (comment !== undefined) file.setTag('ICMT', comment);
  return file.toBuffer();
}

function checked(value: number): number {
  if (!(Math.abs(value) <= 1)) throw new RangeError(`a sample of ${value} in an integer format`);
  return value;
}
