// What a take cannot support, and why, in sentences ready to show.

import type { BandFigures, TakeFigures } from '../../core/measure/takeFigures.ts';
import type { TextArrival } from '../../core/measure/textArrival.ts';
import { hz, textRefusalWords, warningWords } from '../measure/takeWords.ts';

export function refusalSentences(take: TakeFigures, timing: string | null): readonly string[] {
  return [
    ...arrivalRefusal(take, timing),
    ...responseRefusal(take),
    ...decayRefusals(take.octaves),
  ];
}

/** @param arrival null where its phases count from nobody knows when, or there are none */
export function textRefusals(hasPhase: boolean, arrival: TextArrival | null): readonly string[] {
  if (!hasPhase)
    return [
      'No arrival, polarity, decay or signal over noise: a response in text without phase holds none of them',
    ];
  const more = 'No decay or signal over noise: a response in text holds neither';
  if (arrival === null)
    return ['No arrival or polarity: nothing tells when its phases count from', more];
  if (arrival.refusal === null) return [more];
  return [`No arrival or polarity: ${textRefusalWords(arrival)}`, more];
}

export function warningSentences({ warnings }: TakeFigures): readonly string[] {
  // That a response is too short for noise is among the refusals already.
  return warnings
    .filter(({ kind }) => kind !== 'short-response')
    .map((warning) => capital(warningWords(warning)));
}

function arrivalRefusal({ arrival }: TakeFigures, timing: string | null): readonly string[] {
  if (arrival.refusal === null) return [];
  return timing === 'acoustic'
    ? [
        'No absolute arrival: the reference is a loudspeaker, so arrivals count from one take to another only',
      ]
    : ['No arrival: nothing tells when playing began'];
}

function responseRefusal({ response, sourceBand, signalToNoise }: TakeFigures): readonly string[] {
  const own = response.refused.filter(
    ({ band }) => sourceBand.from_hz < band.exact_hz && band.exact_hz < sourceBand.to_hz,
  );
  if (own.length !== 0)
    return [
      `No level at ${listedBands(own.map(({ band }) => band.nominal_hz))}: the signal is less than 20 dB above the noise`,
    ];
  return signalToNoise.length === 0
    ? ['No signal over noise: the response is too short to hold noise at its end']
    : [];
}

function decayRefusals(octaves: readonly BandFigures[]): readonly string[] {
  const narrow = octaves.filter(({ refusal }) => refusal === 'bandwidth-time');
  const noisy = octaves.filter(({ refusal }) => refusal === 'noise');
  const bands = (some: readonly BandFigures[]): string =>
    listedBands(some.map(({ band }) => band.nominal_hz));
  return [
    ...(narrow.length === 0
      ? []
      : [
          `No decay time at ${bands(narrow)}: bandwidth × time is below 16, the ringing of modes is told instead`,
        ]),
    ...(noisy.length === 0
      ? []
      : [`No T20 at ${bands(noisy)}: the decay starts less than 35 dB above the noise`]),
  ];
}

/** "31.5 Hz, 63 Hz and 125 Hz"; long runs by their ends. */
export function listedBands(nominal_hz: readonly number[]): string {
  const words = nominal_hz.map(hz);
  const last = words.at(-1) ?? '';
  if (4 < words.length) return `${words.length} bands from ${words[0]} to ${last}`;
  return words.length < 2 ? last : `${words.slice(0, -1).join(', ')} and ${last}`;
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
