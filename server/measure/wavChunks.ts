// The chunks of a WAV file, found without believing what its header says about sizes.

export interface WavChunks {
  readonly format: Uint8Array;
  readonly samples: Uint8Array;
  /** What the header promises for the samples, bytes. */
  readonly promised: number;
  /** Comments and names; null where there are none, or too many. */
  readonly list: Uint8Array | null;
  readonly isBigEndian: boolean;
}

/** Chunks beyond this are a broken file, not a recording. */
const MOST_CHUNKS = 1000;
/** Longer comments are not ours. */
const MOST_LIST_BYTES = 4096;
const UNKNOWN_SIZE = 0xffffffff;

/** @returns null where the bytes are no WAV file, or one without format or samples */
export function wavChunks(bytes: Uint8Array): WavChunks | null {
  const container = word(bytes, 0);
  if (!['RIFF', 'RIFX', 'RF64'].includes(container) || word(bytes, 8) !== 'WAVE') return null;
  const isBigEndian = container === 'RIFX';
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found = new Map<string, Uint8Array>();
  let promised = 0;
  let at = 12;
  for (let count = 0; at + 8 <= bytes.length && count < MOST_CHUNKS; count++) {
    const id = word(bytes, at);
    const size = view.getUint32(at + 4, !isBigEndian);
    if (!found.has(id)) {
      found.set(id, bytes.subarray(at + 8, Math.min(bytes.length, at + 8 + size)));
      if (id === 'data') promised = size;
    }
    at += 8 + size + (size % 2);
  }
  const format = found.get('fmt ');
  const samples = found.get('data');
  if (format === undefined || samples === undefined || format.length < 16) return null;
  const list = found.get('LIST');
  return {
    format,
    samples,
    // RF64, and recorders that were cut off, leave the size open.
    promised: container === 'RF64' || promised === UNKNOWN_SIZE ? samples.length : promised,
    list: list === undefined || MOST_LIST_BYTES < list.length ? null : list,
    isBigEndian,
  };
}

/** A plain file of these chunks with sizes that are true, for the library to read. */
export function plainWav(
  { format, samples, list, isBigEndian }: WavChunks,
  frameSize: number,
): Uint8Array {
  const whole = samples.subarray(0, samples.length - (samples.length % Math.max(1, frameSize)));
  const parts: readonly (readonly [string, Uint8Array])[] = [
    ['fmt ', format],
    ['data', whole],
    ...(list === null ? [] : ([['LIST', list]] as const)),
  ];
  const size = parts.reduce((sum, [, part]) => sum + 8 + part.length + (part.length % 2), 4);
  const bytes = new Uint8Array(8 + size);
  const view = new DataView(bytes.buffer);
  const write = (text: string, at: number): void => {
    for (let i = 0; i < 4; i++) bytes[at + i] = text.charCodeAt(i);
  };
  write(isBigEndian ? 'RIFX' : 'RIFF', 0);
  view.setUint32(4, size, !isBigEndian);
  write('WAVE', 8);
  let at = 12;
  for (const [id, part] of parts) {
    write(id, at);
    view.setUint32(at + 4, part.length, !isBigEndian);
    bytes.set(part, at + 8);
    at += 8 + part.length + (part.length % 2);
  }
  return bytes;
}

function word(bytes: Uint8Array, at: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + 4));
}
