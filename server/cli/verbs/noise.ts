// `groundbass noise`: band-limited pink noise for level calibration as a WAV file.

import { type Command, Option } from 'commander';
import { type NoiseDesign, pinkNoise } from '../../../core/measure/pinkNoise.ts';
import type { Io } from '../io.ts';
import { Misuse } from '../misuse.ts';
import { countOption, quantityOption } from './quantityOption.ts';
import {
  addSignalOptions,
  checkSignal,
  rounded,
  type SignalOptions,
  writeSignal,
} from './signalOptions.ts';

interface NoiseOptions extends SignalOptions {
  readonly band: keyof typeof BANDS;
  readonly from?: number;
  readonly to?: number;
  readonly length: number;
  readonly fade: number;
  readonly seed: number;
}

/**
 * Edges, Hz. Mains by a hand-held meter: EBU Tech 3343; K-System. Subwoofers: common practice, no source.
 * Wide: the band of SMPTE RP 200 noise.
 */
const BANDS = { main: [500, 2000], sub: [40, 80], wide: [20, 20_000] } as const;

export function addNoise(program: Command, io: Io): void {
  const hz = quantityOption('frequency', 'Hz');
  const s = quantityOption('time', 's');
  addSignalOptions(
    program.command('noise').description('write quiet band-limited pink noise to set levels with'),
  )
    .addOption(
      new Option('--band <band>', 'main 500 Hz–2 kHz, sub 40–80 Hz, wide 20 Hz–20 kHz')
        .choices(Object.keys(BANDS))
        .default('main'),
    )
    .option('--from <frequency>', 'another lower edge, in Hz', hz)
    .option('--to <frequency>', 'another upper edge, in Hz', hz)
    .option('--length <time>', 'in s', s, 30)
    .option('--fade <time>', 'at both ends, in s', s, 0.05)
    .option('--seed <number>', 'the same seed gives the same noise', countOption(2 ** 31), 1)
    .addHelpText(
      'after',
      `
Quiet unless told: −30 dBFS RMS. Its peaks lie some 10 to 14 dB higher. Cautions go to standard error.

Examples:
  $ groundbass noise --out main.wav --level -20
  $ groundbass noise --out sub.wav --band sub --length 60s
  $ groundbass noise --out right.wav --channels 2 --on 2 --seed 7
`,
    )
    .action((options: NoiseOptions) => make(options, io));
}

async function make(options: NoiseOptions, io: Io): Promise<void> {
  const [lower_hz, upper_hz] = BANDS[options.band];
  const { rate, level, length, fade, seed } = options;
  const design: NoiseDesign = {
    sampleRate_hz: rate,
    from_hz: options.from ?? lower_hz,
    to_hz: options.to ?? upper_hz,
    length_s: length,
    level_dbfs: level,
    fade_s: fade,
    seed,
  };
  const { from_hz, to_hz } = design;
  if (!(0 < from_hz && from_hz < to_hz && to_hz <= rate / 2))
    throw new Misuse(`noise cannot run from ${from_hz} Hz to ${to_hz} Hz at ${rate} Hz`);
  if (!(0.1 <= length)) throw new Misuse('--length must be at least 0.1 s');
  if (length * (to_hz - from_hz) < 8)
    throw new Misuse('the band is too narrow for so short a noise');
  if (length < 2 * fade) throw new Misuse('the fades are longer than the noise');
  checkSignal(options, length, rate);
  const facts = { from_hz, to_hz, seed, rms_dbfs: rounded(level) };
  const comment = `pink noise from=${from_hz} to=${to_hz} level=${level} seed=${seed}`;
  await writeSignal(pinkNoise(design), facts, { ...options, comment }, io);
}
