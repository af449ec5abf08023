// `groundbass analyse`: what measurement files say, and what is wrong with them.

import { type Command, Option } from 'commander';
import { logGrid_hz } from '../../../core/acoustics/frequencyGrid.ts';
import { type LevelCurve, powerMean_db } from '../../../core/measure/correction.ts';
import type { FileFault } from '../../measure/fileFault.ts';
import {
  type Measurement,
  playedFile,
  readMeasurement,
  type TakeContext,
  textOf,
} from '../../measure/measurement.ts';
import { meanJson, measurementJson } from '../../measure/measurementJson.ts';
import { meanLines, measurementLines } from '../../measure/measurementWords.ts';
import {
  calibratorJson,
  calibratorLines,
  type NamedNoise,
  noiseLines,
  noiseReportJson,
  pressureJson,
  pressureLines,
} from '../../measure/noiseReport.ts';
import { readResponse } from '../../measure/readResponse.ts';
import type { Io } from '../io.ts';
import { readBytes } from '../measurementFiles.ts';
import { EXIT, Misuse } from '../misuse.ts';
import type { Outcome } from '../run.ts';
import {
  type FullScale,
  fullScaleOf,
  type LevelOptions,
  noiseOf,
  pressureOf,
} from './analyseLevels.ts';
import { countOption, quantityOption } from './quantityOption.ts';

interface AnalyseOptions extends LevelOptions {
  readonly channel: number;
  readonly loopback?: number;
  readonly fromStart: boolean;
  readonly correction?: string;
  readonly smoothing: number;
  readonly window: number;
  readonly average: boolean;
  readonly format: 'text' | 'json';
}

interface Analysed {
  readonly name: string;
  readonly measurement: Measurement | null;
  readonly faults: readonly FileFault[];
}

/** Before the sound: a subwoofer's begins slowly. */
const BEFORE_S = 0.02;

const HELP = `
What a take cannot support is refused with the reason: no absolute arrival without a timing reference, no response where
the signal is less than 20 dB above the noise, no T20 below 35 dB, no decay time where bandwidth × time is below 16 (the
ringing of the modes is told instead).

Examples:
  $ groundbass analyse sub.wav --sweep sweep.wav --loopback 2
  $ groundbass analyse noise.wav --noise --calibrator calibrator.wav --level 94
  $ groundbass analyse impulse.wav --window 300ms --smoothing 1/3
  $ groundbass analyse seat-*.txt --average --correction mic.txt
  $ groundbass analyse left.wav --sweep sweep.wav --format json | jq '.files[0].take.arrival'
`;

export function addAnalyse(program: Command, io: Io, outcome: Outcome): void {
  program
    .command('analyse')
    .description(
      'say what measurements show: arrival, polarity, response, decay, noise, distortion',
    )
    .argument('<files...>', 'WAV recordings or impulse responses, or responses in text')
    .option(
      '--sweep <file>',
      'the WAV file that was played; without it a WAV file is an impulse response',
    )
    .option('--channel <number>', 'which channel the microphone is on', countOption(64), 1)
    .option(
      '--loopback <number>',
      'a channel that recorded the output by a wire: the timing reference',
      countOption(64),
    )
    .option(
      '--from-start',
      'time counts from the first sample of an impulse response, or in the phases of a text',
      false,
    )
    .option('--correction <file>', "the microphone's own response in text, to be taken off")
    .option(
      '--smoothing <fraction>',
      'such as 1/6: mean power over that part of an octave',
      fractionOption,
      6,
    )
    .option(
      '--window <time>',
      'of the response after the arrival, in s',
      quantityOption('time', 's'),
      0.5,
    )
    .option('--noise', 'the files are recordings of the background noise: nothing plays', false)
    .option(
      '--calibrator <file>',
      'the recording of a sound calibrator with the same gain: levels become sound pressure levels',
    )
    .option(
      '--level <level>',
      "the calibrator's, in dB SPL",
      quantityOption('sound_level', 'dB'),
      94,
    )
    .option(
      '--full-scale <level>',
      'in place of a calibrator: dB SPL of a sine at 0 dBFS',
      quantityOption('sound_level', 'dB'),
    )
    .option('--average', 'also the mean power of all the responses', false)
    .addOption(
      new Option('-f, --format <format>', 'how it is told')
        .choices(['text', 'json'])
        .default('text'),
    )
    .addHelpText('after', HELP)
    .action(async (paths: readonly string[], options: AnalyseOptions) => {
      outcome.code = await analyse(paths, options, io);
    });
}

async function analyse(paths: readonly string[], options: AnalyseOptions, io: Io): Promise<number> {
  if (!(0.001 <= options.window && options.window <= 4))
    throw new Misuse('--window must be from 1 ms to 4 s');
  const context = await contextOf(options, io);
  const fullScale = await fullScaleOf(options, options.channel, context.correction, io);
  return options.noise
    ? analyseNoise(paths, options, context, fullScale, io)
    : analyseTakes(paths, options, context, fullScale, io);
}

async function analyseNoise(
  paths: readonly string[],
  { format, average }: AnalyseOptions,
  context: TakeContext,
  fullScale: FullScale,
  io: Io,
): Promise<number> {
  if (average) throw new Misuse('--average is of responses: noise is told file by file');
  const noises: NamedNoise[] = [];
  for (const name of paths) {
    io.tell(`${name} …`);
    noises.push(noiseOf(name, await readBytes(name, io), context, fullScale));
  }
  io.tell(null);
  write(noises.map(noiseLines), noises.map(noiseReportJson), {}, fullScale, format, io);
  return noises.some(({ noise }) => noise === null) ? EXIT.misuse : EXIT.clean;
}

async function analyseTakes(
  paths: readonly string[],
  options: AnalyseOptions,
  context: TakeContext,
  fullScale: FullScale,
  io: Io,
): Promise<number> {
  const analysed: Analysed[] = [];
  for (const name of paths) {
    io.tell(`${name} …`);
    analysed.push({ name, ...readMeasurement(await readBytes(name, io), context) });
  }
  io.tell(null);
  const mean = options.average ? meanOf(analysed) : null;
  const pressures = analysed.map(({ measurement }) => pressureOf(measurement, context, fullScale));
  write(
    [
      ...analysed.map((one, i) => [
        ...measurementLines(one, options.smoothing),
        ...pressureLines(pressures[i] ?? null),
      ]),
      ...(mean === null ? [] : [meanLines(mean)]),
    ],
    analysed.map((one, i) => ({
      ...measurementJson(one, options.smoothing),
      ...pressureJson(pressures[i] ?? null),
    })),
    mean === null ? {} : { average: meanJson(mean) },
    fullScale,
    options.format,
    io,
  );
  return analysed.some(({ measurement }) => measurement === null) ? EXIT.misuse : EXIT.clean;
}

/** The calibrator first, then each file. */
function write(
  blocks: readonly (readonly string[])[],
  files: readonly unknown[],
  more: object,
  { calibrator }: FullScale,
  format: AnalyseOptions['format'],
  io: Io,
): void {
  if (format === 'json') {
    const told =
      calibrator === null ? {} : { calibrator: calibratorJson(calibrator.tone, calibrator.faults) };
    io.out(`${JSON.stringify({ version: 1, ...told, files, ...more }, null, 2)}\n`);
    return;
  }
  const first =
    calibrator === null
      ? []
      : [calibratorLines(calibrator.name, calibrator.tone, calibrator.faults)];
  io.out(`${[...first, ...blocks].map((lines) => lines.join('\n')).join('\n\n')}\n`);
}

async function contextOf(options: AnalyseOptions, io: Io): Promise<TakeContext> {
  const { sweep, correction, loopback, channel } = options;
  if (loopback !== undefined && sweep === undefined)
    throw new Misuse('--loopback needs --sweep: an impulse response has its timing already');
  return {
    channel,
    loopback: loopback ?? null,
    played: sweep === undefined ? null : await played(sweep, io),
    isFromStart: options.fromStart,
    correction: correction === undefined ? null : await correctionOf(correction, io),
    options: {
      smoothingCount: options.smoothing,
      window: { before_s: BEFORE_S, after_s: options.window },
    },
  };
}

async function played(path: string, io: Io): Promise<TakeContext['played']> {
  const { file, faults } = playedFile(await readBytes(path, io));
  if (file === null) throw new Misuse(`${path}: ${faults[0]?.message ?? 'cannot be read'}`);
  return file;
}

async function correctionOf(path: string, io: Io): Promise<LevelCurve> {
  const text = textOf(await readBytes(path, io));
  const { data, faults } = text === null ? { data: null, faults: [] } : readResponse(text);
  for (const { message, line } of faults)
    io.err(`${path}${line === null ? '' : `:${line}`}: ${message}\n`);
  if (data === null) throw new Misuse(`${path} is no response in text`);
  return data;
}

/** @throws Misuse where fewer than two files could be read, or they have no frequency in common */
function meanOf(analysed: readonly Analysed[]): LevelCurve & { readonly count: number } {
  const curves = analysed.flatMap(({ measurement }): readonly LevelCurve[] => {
    if (measurement === null) return [];
    return [measurement.kind === 'text' ? measurement.response : measurement.take.response];
  });
  if (curves.length < 2) throw new Misuse('--average needs two responses that can be read');
  const from_hz = Math.max(...curves.map(({ frequencies_hz }) => frequencies_hz[0] ?? 0));
  const to_hz = Math.min(...curves.map(({ frequencies_hz }) => frequencies_hz.at(-1) ?? 0));
  if (!(from_hz < to_hz)) throw new Misuse('the responses have no frequency in common');
  const frequencies_hz = logGrid_hz(from_hz, to_hz, 24);
  return { frequencies_hz, levels_db: powerMean_db(curves, frequencies_hz), count: curves.length };
}

function fractionOption(text: string): number {
  return countOption(48)(text.replace(/^1\//, ''));
}
