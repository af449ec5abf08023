// Recordings of noise and of a sound calibrator in words: what they show, and how they were read.

import type { MeasuredNoise, MeasuredSession } from '../../core/measured/measuredFigures.ts';
import { noiseLimit } from '../../core/measured/noiseLimit.ts';
import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { fullScaleText, limitText, weightedText } from '../sheet/measured/noiseText.ts';
import { type Explanation, plain } from './explanation.ts';

/** `31.2 dBA, NR 22.4`; against full scale where nothing tells more. */
export function noiseLevelText({ noise, background }: MeasuredNoise): string | null {
  if (noise === null) return null;
  const nr = background?.nr ?? null;
  return nr === null ? weightedText(noise) : `${weightedText(noise)}, NR ${nr.toFixed(1)}`;
}

export function explainNoiseRecording(
  setup: Setup,
  session: string,
  id: string,
  show: Show,
): readonly Explanation[] {
  const found = sessionOf(setup, session)?.noise?.find(({ recording }) => recording === id);
  if (found === undefined) return [];
  if (found.isPending === true)
    return [{ title: 'This recording', lines: ['being read …'], source: null }];
  const { noise, background, refusals } = found;
  if (noise === null) return [];
  const { octaves, whole_db, length_s, basis } = noise;
  const limit = noiseLimit(setup.room.space.backgroundNoise);
  const unit = basis === 'spl' ? '' : ' re full scale';
  return [
    {
      title: `This recording: ${noiseLevelText(found) ?? ''}`,
      lines: [
        ...(background?.governing_hz == null
          ? []
          : [`noise rating decided at ${show.frequency(background.governing_hz)}`]),
        ...octaves.map(({ frequency_hz, level_db }) => {
          const most = limit.levels.find(({ nominal_hz }) => nominal_hz === frequency_hz);
          const asked =
            basis === 'spl' && most !== undefined ? `, at most ${show.level(most.level_db)}` : '';
          return `${show.frequency(frequency_hz)}: ${show.level(level_db)}${unit}${asked}`;
        }),
        `${show.level(whole_db)}${unit} unweighted, 20 Hz to 20 kHz`,
        `mean over ${length_s.toFixed(1)} s`,
        ...(basis === 'spl' ? [`held against ${limitText(limit)}`] : []),
      ],
      source:
        'IEC 61672-1 (A weighting, mean level), IEC 61260-1 (octaves); curves: ISO/R 1996:1971, ANSI/ASA S12.2',
    },
    ...(refusals.length === 0
      ? []
      : [{ title: 'What it does not tell', lines: refusals.map(plain), source: null }]),
  ];
}

export function explainCalibrator(
  setup: Setup,
  session: string,
  show: Show,
): readonly Explanation[] {
  const calibrator = sessionOf(setup, session)?.calibrator ?? null;
  if (calibrator?.isPending === true)
    return [{ title: 'Calibrator', lines: ['being read …'], source: null }];
  if (!calibrator?.tone) return [];
  const { tone } = calibrator;
  return [
    {
      title: `Calibrator: ${fullScaleText(tone, show)}`,
      lines: [
        `a tone at ${show.frequency(tone.frequency_hz)}, ${tone.level_dbfs.toFixed(2)} dBFS, for ${show.level(tone.level_dbspl)} SPL`,
        `steady for ${tone.steady_s.toFixed(1)} s, to ${tone.unsteady_db.toFixed(2)} dB`,
        `${(tone.residual_ratio * 100).toPrecision(2)} % beside the tone`,
      ],
      source: 'IEC 60942 (sound calibrators)',
    },
  ];
}

function sessionOf({ measured }: Setup, session: string): MeasuredSession | null {
  return measured?.sessions.find((one) => one.session === session) ?? null;
}
