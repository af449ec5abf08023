// What the verbs that make test signals share: their options, the limit of level, the channels, and what they say.

import { resolve } from 'node:path';
import { type Command, Option } from 'commander';
import { peak_dbfs } from '../../../core/measure/level.ts';
import { QUIET_DBFS, QUIET_LIMIT_DBFS, SIGNAL_CAUTIONS } from '../../measure/signalCautions.ts';
import { type SampleFormat, writeWav } from '../../measure/writeWav.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { countOption, quantityOption } from './quantityOption.ts';

export interface SignalOptions {
  readonly out: string;
  readonly rate: number;
  readonly level: number;
  readonly loud: boolean;
  readonly channels: number;
  readonly on?: readonly number[];
  readonly bits: SampleFormat;
  readonly format: 'text' | 'json';
}

const MOST_CHANNELS = 64;
/** Longest file: 256 MB at 32 bits. */
const MOST_SAMPLES = 2 ** 26;

export function addSignalOptions(command: Command): Command {
  const rate = countOption(768_000);
  return command
    .requiredOption('-o, --out <file>', 'the WAV file to write')
    .option('--rate <rate>', 'sample rate in Hz', (text) => rate(text.replace(/\s*Hz$/, '')), 48000)
    .option(
      '--level <level>',
      'RMS level in dBFS, of which a full-scale sine has 0',
      quantityOption('full_scale', 'dBFS'),
      QUIET_DBFS,
    )
    .option('--loud', `allow more than ${QUIET_LIMIT_DBFS} dBFS`, false)
    .option('--channels <count>', 'channels of the file', countOption(MOST_CHANNELS), 1)
    .option('--on <list>', 'channels that carry it, such as 1,3 (otherwise all)', channelList)
    .addOption(
      new Option('--bits <bits>', 'how samples are stored')
        .choices(['16', '24', '32', '32f'])
        .default('24'),
    )
    .addOption(
      new Option('-f, --format <format>', 'how the facts are told')
        .choices(['text', 'json'])
        .default('text'),
    );
}

/** @throws Misuse where a level is asked for that needs `--loud`, or channels that the file does not have */
export function checkSignal(
  { level, loud, channels, on }: SignalOptions,
  length_s: number,
  rate_hz: number,
): void {
  if (QUIET_LIMIT_DBFS < level && !loud)
    throw new Misuse(
      `${level} dBFS is louder than ${QUIET_LIMIT_DBFS} dBFS: say --loud if it is meant`,
    );
  const beyond = on?.find((channel) => channels < channel);
  if (beyond !== undefined)
    throw new Misuse(
      `--on ${beyond}: the file has ${channels} channel${channels === 1 ? '' : 's'}`,
    );
  if (MOST_SAMPLES < length_s * rate_hz * channels)
    throw new Misuse(`${Math.round(length_s)} s of ${channels} channels would be too large a file`);
}

/** Writes the signal on its channels and says what was written, with the cautions. */
export async function writeSignal(
  signal: Float64Array,
  facts: Readonly<Record<string, string | number>>,
  { out, rate, channels, on, bits, format, comment }: SignalOptions & { readonly comment: string },
  io: Io,
): Promise<void> {
  const peak = peak_dbfs(signal);
  if (0 < peak)
    throw new Misuse(
      `its peaks would be ${peak.toFixed(1)} dB beyond full scale: ask for less level`,
    );
  const silent = new Float64Array(signal.length);
  const content = Array.from({ length: channels }, (_, index) =>
    (on?.includes(index + 1) ?? true) ? signal : silent,
  );
  await writeBytes(
    out,
    writeWav({ sampleRate_hz: rate, format: bits, channels: content, comment }),
    io,
  );
  const all = {
    file: out,
    ...facts,
    peak_dbfs: rounded(peak),
    sample_rate_hz: rate,
    channels,
    on: on ?? content.map((_, index) => index + 1),
    length_s: rounded(signal.length / rate),
  };
  if (format === 'json')
    io.out(`${JSON.stringify({ version: 1, ...all, cautions: SIGNAL_CAUTIONS }, null, 2)}\n`);
  else io.out(`${textOf(all)}\n`);
  for (const caution of SIGNAL_CAUTIONS) io.err(`Caution: ${caution}\n`);
}

/** @throws Misuse where the file cannot be written */
export async function writeBytes(out: string, bytes: Uint8Array, io: Io): Promise<void> {
  try {
    await io.writeFile(resolve(io.cwd, out), bytes, { isNew: false });
  } catch {
    throw new Misuse(`${out} cannot be written`);
  }
}

export function rounded(value: number): number {
  return Math.round(value * 1000) / 1000;
}

/** `rms_dbfs: -30` as `rms  −30 dBFS`, one fact a line. */
function textOf(facts: Readonly<Record<string, unknown>>): string {
  const UNITS: readonly (readonly [string, string])[] = [
    ['_dbfs', ' dBFS'],
    ['_hz', ' Hz'],
    ['_s', ' s'],
  ];
  return Object.entries(facts)
    .map(([key, value]) => {
      const [ending, unit] = UNITS.find(([end]) => key.endsWith(end)) ?? ['', ''];
      const name = key.slice(0, key.length - ending.length).replaceAll('_', ' ');
      return `${name.padEnd(16)}${Array.isArray(value) ? value.join(', ') : value}${unit}`;
    })
    .join('\n');
}

function channelList(text: string): readonly number[] {
  return text.split(',').map((part) => countOption(MOST_CHANNELS)(part.trim()));
}
