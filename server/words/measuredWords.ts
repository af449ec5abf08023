// Takes in words: what one shows, from which part of its file, how it compares with the plan, and what it cannot tell.

import type { MeasuredTake } from '../../core/measured/measuredFigures.ts';
import type { TakeComparison } from '../../core/measured/verification.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { weightedText } from '../sheet/measured/noiseText.ts';
import { code, type Explanation, plain } from './explanation.ts';

/** The take of this session; null where nothing is known of it. */
export function takeOf({ measured }: Setup, session: string, take: string): MeasuredTake | null {
  const found = measured?.sessions.find((one) => one.session === session);
  return found?.takes.find((one) => one.take === take) ?? null;
}

export function comparisonOf(
  { verification }: Setup,
  session: string,
  take: string,
): TakeComparison | null {
  const takes = verification?.takes ?? [];
  return takes.find((one) => one.session === session && one.take === take) ?? null;
}

/** `82.5 dB SPL`, `-6.0 dB`. */
export function levelText({ level }: MeasuredTake, show: Show): string | null {
  if (level === null) return null;
  return `${show.level(level.level_db)}${level.basis === 'spl' ? ' SPL' : ''}`;
}

export function explainTake(
  setup: Setup,
  session: string,
  id: string,
  show: Show,
): readonly Explanation[] {
  const take = takeOf(setup, session, id);
  if (take === null) return [];
  if (take.isPending === true)
    return [{ title: 'This take', lines: ['being read …'], source: null }];
  if (take.kind === null) return [];
  const compared = comparisonOf(setup, session, id);
  return [
    {
      title: `This take: ${KINDS[take.kind]}`,
      lines: [...shownLines(take, show), ...howLines(take, show)],
      source: SOURCES,
    },
    ...(compared === null ? [] : [explainComparison(compared, show)]),
    ...remarksOf(take),
  ];
}

const KINDS = {
  text: 'a response in text',
  impulse: 'an impulse response',
  recording: 'the recording of a sweep',
} as const;

const SOURCES =
  'ISO 3382-1 and -2 (start of the sound, decay), EBU Tech 3343 (band of the level); a bass source by the slope of its phase beyond minimum phase';

function shownLines(take: MeasuredTake, show: Show): readonly string[] {
  const { arrival_s, arrivalBy, polarity, level, distortion_ratio, timing, noise } = take;
  const by = arrivalBy === 'slope' ? 'the slope of its phase' : 'its first peak';
  const from = timing === 'acoustic' ? ' after the reference loudspeaker' : ' after playing began';
  const least = leastSignalToNoise_db(take);
  return [
    ...(arrival_s === null ? [] : [`arrival ${show.time(arrival_s)}${from}, by ${by}`]),
    ...(polarity === null ? [] : [`polarity ${polarity}`]),
    ...(level === null
      ? []
      : [
          `level ${levelText(take, show)}, mean power ${show.frequency(level.from_hz)} to ${show.frequency(level.to_hz)}${levelBasisText(take)}`,
        ]),
    ...decayLine(take, show),
    ...(least === null ? [] : [`at least ${show.level(least)} above the noise in its band`]),
    ...(noise ? [`${weightedText(noise)} of noise before the sweep`] : []),
    ...(distortion_ratio === null
      ? []
      : [`distortion ${(distortion_ratio * 100).toPrecision(2)} % (harmonics 2 to 5)`]),
  ];
}

/** Of a recorded sweep, the level of a sine as high as the sweep. */
function levelBasisText({ level, kind }: MeasuredTake): string {
  if (level?.basis === 'relative') return '; only differences between takes mean anything';
  return kind === 'recording' ? ', of a sine as high as the sweep' : '';
}

/** The worst third octave of the source's own band. */
export function leastSignalToNoise_db({ signalToNoise, how }: MeasuredTake): number | null {
  if (!how) return null;
  const { from_hz, to_hz } = how.sourceBand;
  const own = signalToNoise
    .filter(({ frequency_hz }) => from_hz <= frequency_hz && frequency_hz <= to_hz)
    .map(({ signalToNoise_db }) => signalToNoise_db);
  return own.length === 0 ? null : own.reduce((least, one) => Math.min(least, one));
}

function decayLine({ octaves }: MeasuredTake, show: Show): readonly string[] {
  const told = octaves.flatMap(({ frequency_hz, t20_s, modalDecay_s }) => {
    if (t20_s !== null) return [`${show.frequency(frequency_hz)} ${show.decayTime(t20_s)}`];
    return modalDecay_s === null
      ? []
      : [`${show.frequency(frequency_hz)} ${show.decayTime(modalDecay_s)} (mode)`];
  });
  return told.length === 0 ? [] : [`T20 ${told.join(', ')}`];
}

function howLines({ how, response }: MeasuredTake, show: Show): readonly string[] {
  if (!how) return [];
  const { encoding, sampleRate_hz, pointCount, window, loopback_s, corrections, sourceBand } = how;
  return [
    encoding === null || sampleRate_hz === null
      ? `read from ${pointCount ?? 0} points`
      : `read from ${sampleRate_hz / 1000} kHz, ${encoding}`,
    `its own band ${show.frequency(sourceBand.from_hz)} to ${show.frequency(sourceBand.to_hz)}: within 10 dB of the strongest third octave`,
    ...(window === null || !response
      ? []
      : [
          `response from ${show.time(window.before_s)} before the sound to ${show.time(window.after_s)} after its start, power over 1/${response.smoothing ?? 0} octave`,
        ]),
    ...(loopback_s === null ? [] : [`${show.time(loopback_s)} of the interface taken off`]),
    ...(corrections.length === 0 ? [] : [`corrected by ${corrections.map(code).join(', ')}`]),
  ];
}

function explainComparison(compared: TakeComparison, show: Show): Explanation {
  const { summary, arrival, polarity, level, response, decay } = compared;
  return {
    title: `Against the plan: ${summary}`,
    lines: [
      ...(arrival === null
        ? []
        : [
            `arrival ${show.time(arrival.measured_s)}, planned ${show.time(arrival.planned_s)}: ${show.time(Math.abs(arrival.off_s))} ${arrival.off_s < 0 ? 'early' : 'late'}`,
          ]),
      ...(polarity === null ? [] : [`polarity ${polarity.measured}, planned ${polarity.planned}`]),
      ...(level === null
        ? []
        : [
            `level off by ${show.level(level.off_db)}, ${show.frequency(level.from_hz)} to ${show.frequency(level.to_hz)}${level.basis === 'relative' ? ", after the session's common offset" : ''}`,
          ]),
      ...(response === null
        ? []
        : [
            `response off by ${show.level(response.rms_db)} RMS, most at ${show.frequency(response.worst.frequency_hz)} (${show.level(response.worst.off_db)})${response.inside === null ? '' : `; ${show.share(response.inside)} of it inside the envelope`}`,
          ]),
      ...(decay.length === 0
        ? []
        : [
            `decay ${decay.map((one) => `${show.frequency(one.frequency_hz)} ${show.decayTime(one.measured_s)} (planned ${show.decayTime(one.planned_s)})`).join(', ')}`,
          ]),
    ],
    source: 'measured less planned; the plan is the predicted low end of this file',
  };
}

function remarksOf({ refusals, warnings }: MeasuredTake): readonly Explanation[] {
  const lines = [...refusals, ...warnings].map(plain);
  return lines.length === 0 ? [] : [{ title: 'What it does not tell', lines, source: null }];
}
