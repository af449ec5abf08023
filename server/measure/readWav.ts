// A WAV file's bytes as signals, and what is wrong with them. A library decodes the samples.

import wavefile from 'wavefile';
import { type FileFault, fault } from './fileFault.ts';
import { plainWav, type WavChunks, wavChunks } from './wavChunks.ts';

export interface WavData {
  readonly sampleRate_hz: number;
  /** Full scale ±1; samples that are no numbers are 0. */
  readonly channels: readonly Float64Array[];
  /** `24-bit integer`, `32-bit float` … */
  readonly encoding: string;
  readonly comment: string;
}

export interface WavReading {
  /** null where an error makes it unreadable. */
  readonly data: WavData | null;
  readonly faults: readonly FileFault[];
}

/** Five minutes of two channels at 48 kHz go in; what is decoded takes eight bytes a sample, twice. */
export const MOST_BYTES = 300_000_000;
const MOST_SAMPLES = 2 ** 25;
const MOST_CHANNELS = 64;
const RATES_HZ = [4000, 768_000] as const;
/** PCM and IEEE float; the extensible header names them in its first bytes of the sub-format. */
const PCM = 1;
const FLOAT = 3;
const EXTENSIBLE = 0xfffe;

/** @param bytes of the whole file, or of its start where the rest is missing */
export function readWav(bytes: Uint8Array): WavReading {
  if (bytes.length === 0) return failed('wav/empty', 'the file is empty');
  if (MOST_BYTES < bytes.length) return failed('wav/too-large', 'the file is larger than 300 MB');
  const chunks = wavChunks(bytes);
  if (chunks === null)
    return failed('wav/no-wav', 'this is no WAV file, or one without format or samples');
  const format = formatOf(chunks);
  const wrong = wrongFormat(format);
  if (wrong !== null) return { data: null, faults: [wrong] };
  const { rate_hz, channelCount, frameSize, encoding } = format;
  const held = Math.floor(chunks.samples.length / frameSize);
  if (held === 0) return failed('wav/no-samples', 'the file holds no samples');
  if (MOST_SAMPLES < held * channelCount)
    return failed(
      'wav/too-long',
      `${held} samples of ${channelCount} channels are too many to analyse`,
    );
  const faults: FileFault[] = [];
  if (chunks.samples.length < chunks.promised) {
    const promised_s = chunks.promised / frameSize / rate_hz;
    faults.push(
      fault(
        'wav/cut-short',
        'warning',
        `cut short: the header promises ${seconds(promised_s)}, the file holds ${seconds(held / rate_hz)}`,
      ),
    );
  }
  const decoded = decode(chunks, frameSize);
  if (decoded === null)
    return failed('wav/undecodable', `its samples (${encoding}) cannot be decoded`);
  const channels = apart(decoded.samples, channelCount, format.scale);
  faults.push(...channels.flatMap((channel, index) => signalFaults(channel, index, rate_hz)));
  return { data: { sampleRate_hz: rate_hz, channels, encoding, comment: decoded.comment }, faults };
}

interface Format {
  readonly code: number;
  readonly bits: number;
  readonly channelCount: number;
  readonly rate_hz: number;
  readonly frameSize: number;
  readonly encoding: string;
  /** What a sample is divided by. */
  readonly scale: number;
}

function formatOf({ format, isBigEndian }: WavChunks): Format {
  const view = new DataView(format.buffer, format.byteOffset, format.byteLength);
  const little = !isBigEndian;
  const written = view.getUint16(0, little);
  const code = written === EXTENSIBLE && 26 <= format.length ? view.getUint16(24, little) : written;
  const bits = view.getUint16(14, little);
  const channelCount = view.getUint16(2, little);
  return {
    code,
    bits,
    channelCount,
    rate_hz: view.getUint32(4, little),
    frameSize: channelCount * (bits / 8),
    encoding: `${bits}-bit ${code === FLOAT ? 'float' : 'integer'}`,
    scale: code === FLOAT ? 1 : 2 ** (bits - 1),
  };
}

function wrongFormat({ code, bits, channelCount, rate_hz }: Format): FileFault | null {
  const known =
    (code === PCM && [16, 24, 32].includes(bits)) || (code === FLOAT && [32, 64].includes(bits));
  if (!known)
    return fault(
      'wav/encoding',
      'error',
      `its encoding (number ${code}, ${bits} bits) is not read: 16, 24, 32-bit integer and 32, 64-bit float are`,
    );
  if (channelCount < 1 || MOST_CHANNELS < channelCount)
    return fault(
      'wav/channels',
      'error',
      `${channelCount} channels: 1 to ${MOST_CHANNELS} are read`,
    );
  if (rate_hz < RATES_HZ[0] || RATES_HZ[1] < rate_hz)
    return fault('wav/rate', 'error', `a sample rate of ${rate_hz} Hz cannot be`);
  return null;
}

function decode(
  chunks: WavChunks,
  frameSize: number,
): { readonly samples: Float64Array; readonly comment: string } | null {
  for (const list of chunks.list === null ? [null] : [chunks.list, null]) {
    try {
      const file = new wavefile.WaveFile();
      file.fromBuffer(plainWav({ ...chunks, list }, frameSize));
      const comment: unknown = list === null ? null : file.getTag('ICMT');
      return {
        samples: file.getSamples(true),
        comment: typeof comment === 'string' ? comment : '',
      };
    } catch {
      // Comments may be broken while the samples are sound: the next round leaves them out.
    }
  }
  return null;
}

function apart(
  samples: Float64Array,
  channelCount: number,
  scale: number,
): readonly Float64Array[] {
  const length = Math.floor(samples.length / channelCount);
  return Array.from({ length: channelCount }, (_, channel) => {
    const one = new Float64Array(length);
    for (let i = 0; i < length; i++)
      one[i] = (samples[i * channelCount + channel] as number) / scale;
    return one;
  });
}

/** As many samples at full scale in a row are no chance. */
const CLIPPED_RUN = 3;
/** Quieter than the last bit of 24. */
const SILENT = 2 ** -24;

/** Looks at a channel; samples that are no numbers are set to 0 in place. */
function signalFaults(channel: Float64Array, index: number, rate_hz: number): readonly FileFault[] {
  let wrongCount = 0;
  let firstWrong = 0;
  let peak = 0;
  let run = 0;
  let clippedCount = 0;
  let firstClipped = 0;
  for (let i = 0; i < channel.length; i++) {
    const value = channel[i] as number;
    if (!Number.isFinite(value) || 1e6 < Math.abs(value)) {
      if (wrongCount === 0) firstWrong = i;
      wrongCount++;
      channel[i] = 0;
      continue;
    }
    const size = Math.abs(value);
    if (peak < size) peak = size;
    run = 0.99996 <= size && value === channel[i - 1] ? run + 1 : 0;
    if (run === CLIPPED_RUN - 1) {
      if (clippedCount === 0) firstClipped = i;
      clippedCount++;
    }
  }
  const name = `channel ${index + 1}`;
  const at = (sample: number): string => seconds(sample / rate_hz);
  const faults: FileFault[] = [];
  if (0 < wrongCount)
    faults.push(
      fault(
        'wav/not-a-number',
        'error',
        `${name}: ${wrongCount} samples are no numbers, the first at ${at(firstWrong)}`,
      ),
    );
  if (0 < clippedCount)
    faults.push(
      fault(
        'wav/clipped',
        'warning',
        `${name} is clipped in ${clippedCount} places, the first at ${at(firstClipped)}: take it again with less gain`,
      ),
    );
  if (peak < SILENT) faults.push(fault('wav/silent', 'warning', `${name} is silent`));
  return faults;
}

function seconds(value: number): string {
  return `${Number(value.toPrecision(4))} s`;
}

function failed(code: string, message: string): WavReading {
  return { data: null, faults: [fault(code, 'error', message)] };
}
