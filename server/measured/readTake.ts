// One take's files as what they show: bytes in, plain data out. No file is looked for here, and nothing is thrown.

import { wrapped_rad } from '../../core/acoustics/complex.ts';
import type { LevelCurve } from '../../core/measure/correction.ts';
import { rms_dbfs } from '../../core/measure/level.ts';
import { SHORTEST_NOISE_S } from '../../core/measure/noiseLevels.ts';
import type { BandFigures, TakeFigures } from '../../core/measure/takeFigures.ts';
import { textArrival } from '../../core/measure/textArrival.ts';
import type {
  MeasuredDecay,
  MeasuredResponse,
  NoiseFigures,
  TakeFault,
} from '../../core/measured/measuredFigures.ts';
import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';
import { textFigures } from '../../core/measured/textFigures.ts';
import type { MeasuringTake } from '../../schema/model/sessions.ts';
import {
  type Measurement,
  type PlayedFile,
  playedFile,
  readMeasurement,
} from '../measure/measurement.ts';
import { warningWords } from '../measure/takeWords.ts';
import { type CorrectionFile, correctionOf } from './corrections.ts';
import { fullScale_dbspl, type LevelReference } from './levelReference.ts';
import { noiseFigures, readNoise, readTone } from './readNoise.ts';
import { takeFaults } from './takeFaults.ts';
import type { RecordingKind } from './takeRequests.ts';
import { listedBands, refusalSentences, textRefusals, warningSentences } from './takeSentences.ts';

/** The bytes of a take and of what it was made with. */
export interface TakeFiles {
  /** A take where absent. */
  readonly records?: RecordingKind;
  /** What makes levels sound pressure levels; null or absent where nothing does. */
  readonly reference?: LevelReference | null;
  readonly file: Uint8Array;
  /** What was played, where the take is a recording of it. */
  readonly sweep: Uint8Array | null;
  readonly corrections: readonly CorrectionFile[];
  readonly channel: number;
  readonly loopback: number | null;
  readonly timing: MeasuringTake['timing'];
}

/** Smoothing and window of a take's response, before and after the start of the sound. */
export const TAKE_OPTIONS = {
  smoothingCount: 6,
  window: { before_s: 0.02, after_s: 0.5 },
} as const;

export function readTake(files: TakeFiles): TakeReading {
  const { curve, names, faults: correctionFaults } = correctionOf(files.corrections);
  if (files.records === 'noise' || files.records === 'calibrator') {
    const read = files.records === 'noise' ? readNoise : readTone;
    const reading = read(files, curve);
    return { ...reading, faults: [...reading.faults, ...correctionFaults] };
  }
  const { played, faults: sweepFaults } = playedOf(files.sweep);
  const others = [...correctionFaults, ...sweepFaults];
  if (files.sweep !== null && played === null) return { ...NOTHING_READ, faults: others };
  const { measurement, faults } = readMeasurement(files.file, {
    channel: files.channel,
    loopback: played === null ? null : files.loopback,
    played,
    isFromStart: files.timing === 'loopback',
    correction: curve,
    options: TAKE_OPTIONS,
  });
  const used = [files.channel, ...(files.loopback === null ? [] : [files.loopback])];
  const own = [...takeFaults(faults, used), ...others];
  if (measurement === null) return { ...NOTHING_READ, faults: own };
  const reading =
    measurement.kind === 'text'
      ? textReading(measurement, files.timing, names)
      : wavReading(measurement, files, names, levelsOf(measurement, files, played, curve));
  const doubts = measurement.kind === 'take' ? doubtsOf(measurement.take) : [];
  return { ...reading, faults: [...own, ...timingFaults(reading, files), ...doubts] };
}

function playedOf(bytes: Uint8Array | null): {
  readonly played: PlayedFile | null;
  readonly faults: readonly TakeFault[];
} {
  if (bytes === null) return { played: null, faults: [] };
  const { file, faults } = playedFile(bytes);
  const told = file === null ? faults : faults.filter(({ code }) => code !== 'wav/silent');
  return {
    played: file,
    faults: told.slice(0, 1).map(({ message }) => ({
      code: 'measurement/sweep',
      severity: file === null ? 'error' : 'warning',
      message: `the sweep's file: ${message}`,
    })),
  };
}

/** What turns a take's levels into sound pressure levels, and the noise before its sweep. */
interface Levels {
  /** Added to what the microphone heard over what was played; null where nothing tells it. */
  readonly offset_db: number | null;
  readonly noise: NoiseFigures | null;
}

function levelsOf(
  { recorded, wav }: Of<'take'>,
  { reference }: TakeFiles,
  played: PlayedFile | null,
  correction: LevelCurve | null,
): Levels {
  const full_dbspl = fullScale_dbspl(reference, correction);
  if (recorded === null || played === null || full_dbspl === null)
    return { offset_db: null, noise: null };
  const { quiet } = recorded;
  const isLong = SHORTEST_NOISE_S * wav.sampleRate_hz <= quiet.length;
  return {
    offset_db: full_dbspl + playedLevel_dbfs(played),
    noise: isLong ? noiseFigures(quiet, wav.sampleRate_hz, correction, full_dbspl) : null,
  };
}

/** Of the sweep while it sounds: a sine. */
function playedLevel_dbfs({ played }: PlayedFile): number {
  return 'design' in played ? played.design.level_dbfs : rms_dbfs(played.signal);
}

type Of<Kind> = Extract<Measurement, { readonly kind: Kind }>;

function textReading(
  { response: { frequencies_hz, levels_db, phase_rad }, arrival: fromPlaying }: Of<'text'>,
  timing: TakeFiles['timing'],
  corrections: readonly string[],
): TakeReading {
  const { response, level, sourceBand } = textFigures(
    { frequencies_hz, levels_db },
    phase_rad,
    timing === 'loopback',
  );
  const arrival =
    phase_rad === null || timing !== 'acoustic'
      ? fromPlaying
      : textArrival({ frequencies_hz, levels_db, phase_rad }, sourceBand, true);
  return {
    ...NOTHING_READ,
    kind: 'text',
    response,
    arrival_s: arrival?.arrival_s ?? null,
    arrivalBy: arrival === null || arrival.arrival_s === null ? null : arrival.by,
    polarity: arrival?.polarity ?? null,
    level,
    refusals: textRefusals(phase_rad !== null, arrival),
    how: {
      ...NO_HOW,
      pointCount: frequencies_hz.length,
      sourceBand,
      corrections,
      withFilters_s: arrival?.withFilters_s ?? null,
    },
  };
}

function wavReading(
  { wav, recorded, take }: Of<'take'>,
  { timing }: TakeFiles,
  corrections: readonly string[],
  { offset_db, noise }: Levels,
): TakeReading {
  const { arrival, polarity, level, response, sourceBand } = take;
  const arrival_s =
    timing === 'acoustic' && recorded === null ? arrival.place_s : arrival.arrival_s;
  return {
    ...NOTHING_READ,
    kind: recorded === null ? 'impulse' : 'recording',
    response: responseOf(take, offset_db ?? 0),
    noise,
    arrival_s,
    arrivalBy: arrival_s === null ? null : arrival.method,
    polarity: polarity.polarity,
    level: {
      ...level,
      level_db: level.level_db + (offset_db ?? 0),
      basis: offset_db === null ? 'relative' : 'spl',
    },
    octaves: take.octaves.map(decayOf),
    thirdOctaves: take.thirdOctaves.map(decayOf),
    signalToNoise: take.signalToNoise.map(({ band, signalToNoise_db }) => ({
      frequency_hz: band.nominal_hz,
      signalToNoise_db,
    })),
    distortion_ratio: distortionOf(take),
    refusals: refusalSentences(take, timing),
    warnings: warningSentences(take),
    how: {
      encoding: wav.encoding,
      sampleRate_hz: wav.sampleRate_hz,
      channelCount: wav.channels.length,
      pointCount: null,
      window: { ...response.window },
      sourceBand: { ...sourceBand },
      placed_s: arrival.place_s,
      withFilters_s: arrival.withFilters_s,
      loopback_s: recorded?.loopback_s ?? null,
      recorded_dbfs: finite(recorded?.recorded_dbfs),
      noise_dbfs: finite(recorded?.noise_dbfs),
      corrections,
    },
  };
}

const NO_HOW = {
  encoding: null,
  sampleRate_hz: null,
  channelCount: null,
  window: null,
  placed_s: null,
  withFilters_s: null,
  loopback_s: null,
  recorded_dbfs: null,
  noise_dbfs: null,
} as const;

function responseOf({ response, arrival }: TakeFigures, offset_db: number): MeasuredResponse {
  const { frequencies_hz, levels_db, phase_rad, smoothingCount } = response;
  const from_s = arrival.arrival_s ?? 0;
  return {
    frequency_hz: Array.from(frequencies_hz),
    level_db: Array.from(levels_db, (level_db) => finite(level_db + offset_db)),
    phase_rad: Array.from(phase_rad, (phase, i) =>
      finite(wrapped_rad(phase - 2 * Math.PI * (frequencies_hz[i] as number) * from_s)),
    ),
    phaseFrom: arrival.arrival_s === null ? 'arrival' : 'playing',
    smoothing: smoothingCount,
  };
}

function decayOf({ band, edt_s, t20_s, t30_s, ringings }: BandFigures): MeasuredDecay {
  return {
    frequency_hz: band.nominal_hz,
    earlyDecay_s: edt_s,
    t20_s,
    t30_s,
    modalDecay_s: ringings[0]?.decayTime_s ?? null,
  };
}

/** Mean power of the harmonics against the fundamental, over what of the source's band could be read. */
function distortionOf({ distortion, sourceBand }: TakeFigures): number | null {
  if (distortion === null) return null;
  const powers = Array.from(distortion.frequencies_hz).flatMap((f, i) => {
    const ratio = distortion.total_ratio[i] as number;
    const isOwn = sourceBand.from_hz <= f && f <= sourceBand.to_hz;
    return isOwn && Number.isFinite(ratio) ? [ratio * ratio] : [];
  });
  return powers.length === 0
    ? null
    : Math.sqrt(powers.reduce((sum, one) => sum + one, 0) / powers.length);
}

/** What the file says of its timing, and the take cannot give. */
function timingFaults(
  { kind, response, arrival_s }: TakeReading,
  { timing, loopback }: TakeFiles,
): readonly TakeFault[] {
  const told = (message: string): readonly TakeFault[] => [
    { code: 'measurement/no-timing', severity: 'warning', message },
  ];
  if (kind === 'text' && timing === 'loopback' && response?.phaseFrom === null)
    return told('a response without phase has no timing');
  if (kind !== 'recording') return [];
  if (timing === 'loopback' && arrival_s === null)
    return told(
      loopback === null
        ? 'no channel of the recording is named as `loopback`'
        : `the sweep is not found on channel ${loopback}, the loopback`,
    );
  if (timing === 'acoustic')
    return told('of a recorded sweep only a loopback is read, not an acoustic reference');
  return [];
}

/** Two sources that sound together, and a strong reflection, are often as high as the direct sound. */
const FAR_HIGHER_DB = 3;

/** Of what the analysis warns of, what spoils a figure that the take would give. */
function doubtsOf({ arrival, warnings, response, sourceBand }: TakeFigures): readonly TakeFault[] {
  const told = (code: string, message: string): TakeFault => ({
    code: `measurement/${code}`,
    severity: 'information',
    message,
  });
  const low = response.refused.filter(
    ({ band }) => sourceBand.from_hz < band.exact_hz && band.exact_hz < sourceBand.to_hz,
  );
  const doubtful =
    arrival.arrival_s === null
      ? []
      : warnings.filter(
          (warning) =>
            warning.kind === 'phase-scatter' ||
            (warning.kind === 'later-peak-higher' && FAR_HIGHER_DB <= warning.higher_db),
        );
  return [
    ...(low.length === 0
      ? []
      : [
          told(
            'low-signal',
            `less than 20 dB above the noise at ${listedBands(low.map(({ band }) => band.nominal_hz))}`,
          ),
        ]),
    ...doubtful.map((warning) => told('doubtful-arrival', warningWords(warning))),
  ];
}

function finite(value: number | null | undefined): number | null {
  return value !== null && value !== undefined && Number.isFinite(value) ? value : null;
}
