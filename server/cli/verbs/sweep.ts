// `groundbass sweep`: an exponential sweep as a WAV file, and its inverse.

import type { Command } from 'commander';
import { inverseSweep, type SweepDesign, sweepTrain } from '../../../core/measure/sweep.ts';
import { sweepTag } from '../../measure/sweepTag.ts';
import { writeWav } from '../../measure/writeWav.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { countOption, quantityOption } from './quantityOption.ts';
import {
  addSignalOptions,
  checkSignal,
  rounded,
  type SignalOptions,
  writeBytes,
  writeSignal,
} from './signalOptions.ts';

interface SweepOptions extends SignalOptions {
  readonly from: number;
  readonly to?: number;
  readonly length: number;
  readonly fadeIn: number;
  readonly fadeOut: number;
  readonly lead: number;
  readonly gap: number;
  readonly repeats: number;
  readonly inverse?: string;
}

/** Where a sweep ends unless told: what is heard, within what the rate can carry. */
const TO_HZ = 22_000;
const SHARE_OF_RATE = 0.46;

export function addSweep(program: Command, io: Io): void {
  const hz = quantityOption('frequency', 'Hz');
  const s = quantityOption('time', 's');
  addSignalOptions(
    program
      .command('sweep')
      .description('write a quiet exponential sweep to measure with, and its inverse'),
  )
    .option('--from <frequency>', 'where it starts, in Hz', hz, 10)
    .option('--to <frequency>', `where it ends, in Hz (${TO_HZ}, or what the rate can carry)`, hz)
    .option('--length <time>', 'of one sweep, in s', s, 10)
    .option('--fade-in <time>', 'at its start, in s', s, 0.1)
    .option('--fade-out <time>', 'at its end, in s', s, 0.02)
    .option(
      '--lead <time>',
      'silence before the first, in s: there the noise of the room is read',
      s,
      1,
    )
    .option('--gap <time>', 'silence after each, in s: there the room decays', s, 2)
    .option(
      '--repeats <count>',
      'how often it comes; the analysis averages them',
      countOption(64),
      1,
    )
    .option('--inverse <file>', 'write the inverse too, as 32-bit float')
    .addHelpText(
      'after',
      `
Quiet unless told: −30 dBFS RMS. The file remembers its design; analyse takes it as --sweep.
Cautions go to standard error.

Examples:
  $ groundbass sweep --out sweep.wav
  $ groundbass sweep --out sub.wav --to 400Hz --length 20s --repeats 2
  $ groundbass sweep --out right.wav --channels 2 --on 2 --inverse inverse.wav
`,
    )
    .action((options: SweepOptions) => make(options, io));
}

async function make(options: SweepOptions, io: Io): Promise<void> {
  const design = designOf(options);
  const { length_s, lead_s, gap_s, repeatCount } = design;
  checkSignal(options, lead_s + repeatCount * (length_s + gap_s), design.sampleRate_hz);
  const facts = {
    from_hz: design.from_hz,
    to_hz: design.to_hz,
    sweep_s: length_s,
    repeats: repeatCount,
    rms_dbfs: rounded(design.level_dbfs),
  };
  await writeSignal(sweepTrain(design), facts, { ...options, comment: sweepTag(design) }, io);
  if (options.inverse === undefined) return;
  const channels = [inverseSweep(design)];
  const { sampleRate_hz } = design;
  await writeBytes(options.inverse, writeWav({ sampleRate_hz, format: '32f', channels }), io);
}

/** @throws Misuse for a design that cannot be */
function designOf(options: SweepOptions): SweepDesign {
  const { rate, from, length, fadeIn, fadeOut } = options;
  const to = options.to ?? Math.min(TO_HZ, Math.floor(rate * SHARE_OF_RATE));
  if (!(0 < from && from < to)) throw new Misuse(`a sweep cannot run from ${from} Hz to ${to} Hz`);
  if (rate / 2 < to)
    throw new Misuse(`--to ${to} Hz is beyond half the sample rate (${rate / 2} Hz)`);
  if (!(0.01 <= length && length <= 300)) throw new Misuse('--length must be from 0.01 s to 300 s');
  if (length < fadeIn + fadeOut) throw new Misuse('the fades are longer than the sweep');
  return {
    sampleRate_hz: rate,
    from_hz: from,
    to_hz: to,
    length_s: length,
    level_dbfs: options.level,
    fadeIn_s: fadeIn,
    fadeOut_s: fadeOut,
    lead_s: options.lead,
    gap_s: options.gap,
    repeatCount: options.repeats,
  };
}
