// A measurement file's bytes as what they are: a response in text, an impulse response, or the recording of a sweep.

import { corrected_db, type LevelCurve } from '../../core/measure/correction.ts';
import { type Played, type RecordedSweep, recordedSweep } from '../../core/measure/recording.ts';
import { type TakeOptions, takeFigures } from '../../core/measure/take.ts';
import type { TakeFigures } from '../../core/measure/takeFigures.ts';
import { type TextArrival, textArrival } from '../../core/measure/textArrival.ts';
import { textFigures } from '../../core/measured/textFigures.ts';
import { type FileFault, fault, ofChannels } from './fileFault.ts';
import { readResponse, type TextResponse } from './readResponse.ts';
import { readWav, type WavData } from './readWav.ts';
import { sweepFromTag } from './sweepTag.ts';

/** What is known about how a take was made. */
export interface TakeContext {
  /** From 1. */
  readonly channel: number;
  readonly loopback: number | null;
  /** null for an impulse response. */
  readonly played: PlayedFile | null;
  /** The first sample of an impulse response is the moment at which playing began; the phases of a text count from it. */
  readonly isFromStart: boolean;
  /** The microphone's own response, to be taken off. */
  readonly correction: LevelCurve | null;
  readonly options: TakeOptions;
}

export interface PlayedFile {
  readonly played: Played;
  readonly sampleRate_hz: number;
}

export type Measurement =
  | {
      readonly kind: 'text';
      readonly response: TextResponse;
      /** null where it has no phase, or nobody says that its phases count from the moment of playing. */
      readonly arrival: TextArrival | null;
    }
  | {
      readonly kind: 'take';
      readonly wav: WavData;
      readonly recorded: RecordedSweep | null;
      readonly take: TakeFigures;
    };

export interface MeasurementReading {
  /** null where an error stands in the way. */
  readonly measurement: Measurement | null;
  readonly faults: readonly FileFault[];
}

/** Longer channels would take more memory than a desk has to spare: 87 s at 96 kHz. */
const MOST_SAMPLES = 2 ** 23;

export function readMeasurement(bytes: Uint8Array, context: TakeContext): MeasurementReading {
  return isWav(bytes) ? wavMeasurement(bytes, context) : textMeasurement(bytes, context);
}

/** Text in UTF-8, or in the one-byte encoding that old programs wrote; null for bytes that are no text. */
export function textOf(bytes: Uint8Array): string | null {
  if (bytes.subarray(0, 4096).includes(0)) return null;
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('latin1').decode(bytes);
  }
}

/** What was played, from its file. */
export function playedFile(bytes: Uint8Array): {
  readonly file: PlayedFile | null;
  readonly faults: readonly FileFault[];
} {
  const { data, faults } = readWav(bytes);
  if (data === null || faults.some(({ severity }) => severity === 'error'))
    return { file: null, faults };
  const { sampleRate_hz } = data;
  const design = sweepFromTag(data.comment, sampleRate_hz);
  const signal = data.channels.find((channel) => channel.some((value) => value !== 0));
  if (signal === undefined)
    return { file: null, faults: [fault('wav/silent', 'error', 'nothing is played in it')] };
  const played: Played = design === null ? { signal, sampleRate_hz } : { design };
  return { file: { played, sampleRate_hz }, faults };
}

function isWav(bytes: Uint8Array): boolean {
  return ['RIFF', 'RIFX', 'RF64'].includes(String.fromCharCode(...bytes.subarray(0, 4)));
}

function textMeasurement(
  bytes: Uint8Array,
  { correction, isFromStart }: TakeContext,
): MeasurementReading {
  const text = textOf(bytes);
  if (text === null)
    return {
      measurement: null,
      faults: [fault('response/no-text', 'error', 'this is neither a WAV file nor a text')],
    };
  const { data, faults } = readResponse(text);
  if (data === null) return { measurement: null, faults };
  const levels_db = correction === null ? data.levels_db : corrected_db(data, correction);
  const response = { ...data, levels_db };
  const { frequencies_hz, phase_rad } = response;
  const arrival =
    phase_rad === null || !isFromStart
      ? null
      : textArrival(
          { frequencies_hz, levels_db, phase_rad },
          textFigures(response, phase_rad, true).sourceBand,
          false,
        );
  return { measurement: { kind: 'text', response, arrival }, faults };
}

function wavMeasurement(bytes: Uint8Array, context: TakeContext): MeasurementReading {
  const { channel, loopback, played } = context;
  const { data: wav, faults: all } = readWav(bytes);
  const faults = ofChannels(all, loopback === null ? [channel] : [channel, loopback]);
  const failed = (code: string, message: string): MeasurementReading => ({
    measurement: null,
    faults: [...faults, fault(code, 'error', message)],
  });
  if (wav === null || faults.some(({ severity }) => severity === 'error'))
    return { measurement: null, faults };
  const signal = wav.channels[channel - 1];
  const wire = loopback === null ? null : (wav.channels[loopback - 1] ?? null);
  const missing =
    signal === undefined ? channel : loopback !== null && wire === null ? loopback : null;
  if (signal === undefined || missing !== null)
    return failed(
      'wav/no-channel',
      `there is no channel ${missing}: the file has ${wav.channels.length}`,
    );
  if (played !== null && played.sampleRate_hz !== wav.sampleRate_hz)
    return failed(
      'wav/other-rate',
      `its sample rate is ${wav.sampleRate_hz} Hz, that of the sweep ${played.sampleRate_hz} Hz`,
    );
  if (MOST_SAMPLES < signal.length)
    return failed(
      'wav/too-long',
      `${Math.round(signal.length / wav.sampleRate_hz)} s are too long to analyse`,
    );
  const least_s = played === null ? 0 : lengthOf_s(played);
  if (signal.length < least_s * wav.sampleRate_hz)
    return failed(
      'wav/shorter-than-sweep',
      `it lasts ${shortened(signal.length / wav.sampleRate_hz)}, what was played ${shortened(least_s)}: the end is missing`,
    );
  const recorded = played === null ? null : recordedSweep(signal, played.played, wire);
  const impulse = recorded?.impulse ?? {
    samples: signal,
    sampleRate_hz: wav.sampleRate_hz,
    start_s: 0,
    isTimed: context.isFromStart,
  };
  const take = takeFigures(impulse, context.options);
  if (take === null) return failed('wav/silent', `channel ${channel} is silent`);
  return {
    measurement: { kind: 'take', wav, recorded, take: corrected(take, context.correction) },
    faults,
  };
}

/** Up to the end of the first sweep; what rings on after it may be missing. */
function lengthOf_s({ played, sampleRate_hz }: PlayedFile): number {
  return 'design' in played
    ? played.design.lead_s + played.design.length_s
    : played.signal.length / sampleRate_hz;
}

function shortened(length_s: number): string {
  return `${Number(length_s.toPrecision(4))} s`;
}

/** Responses and level less the microphone's own. */
function corrected(take: TakeFigures, correction: LevelCurve | null): TakeFigures {
  if (correction === null) return take;
  const { response, level } = take;
  const middle_hz = Math.sqrt(level.from_hz * level.to_hz);
  const one: LevelCurve = {
    frequencies_hz: Float64Array.of(middle_hz),
    levels_db: Float64Array.of(level.level_db),
  };
  return {
    ...take,
    level: { ...level, level_db: corrected_db(one, correction)[0] ?? level.level_db },
    response: { ...response, levels_db: corrected_db(response, correction) },
  };
}
