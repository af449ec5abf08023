// Hints of the kind `measurement`: on each take its fit to the plan, its arrival and its level.

import type { MeasuredSession, MeasuredTake } from '../../../core/measured/measuredFigures.ts';
import type { Setup } from '../../../core/setup.ts';
import type { Show } from '../../../core/show.ts';
import type { Path } from '../../../schema/model/path.ts';
import { fullScaleText } from '../../sheet/measured/noiseText.ts';
import type { Explanation } from '../../words/explanation.ts';
import { comparisonOf, explainTake, levelText } from '../../words/measuredWords.ts';
import {
  explainCalibrator,
  explainNoiseRecording,
  noiseLevelText,
} from '../../words/noiseRecordingWords.ts';
import type { Hint } from './hint.ts';

export function measurementHints(setup: Setup, show: Show): readonly Hint[] {
  return (setup.measured?.sessions ?? [])
    .flatMap((session) => [
      ...session.takes.map((take) =>
        hintAt(
          take.path,
          partsOf(setup, session.session, take, show),
          explainTake(setup, session.session, take.take, show),
        ),
      ),
      ...recordingHints(setup, session, show),
    ])
    .filter(({ parts }) => parts.length !== 0);
}

/** On each recording of noise its level and rating, on the calibrator what full scale is. */
function recordingHints(setup: Setup, session: MeasuredSession, show: Show): readonly Hint[] {
  const { noise = [], calibrator } = session;
  const told = (text: string | null, isPending = false): Hint['parts'] => {
    const said = isPending ? 'being read …' : text;
    return said === null ? [] : [{ text: said, dependsOn: null }];
  };
  const tone = calibrator?.tone ?? null;
  return [
    ...noise.map((one) =>
      hintAt(
        one.path,
        told(noiseLevelText(one), one.isPending),
        explainNoiseRecording(setup, session.session, one.recording, show),
      ),
    ),
    ...(calibrator
      ? [
          hintAt(
            calibrator.path,
            told(tone === null ? null : fullScaleText(tone, show), calibrator.isPending),
            explainCalibrator(setup, session.session, show),
          ),
        ]
      : []),
  ];
}

function hintAt(path: Path, parts: Hint['parts'], explanations: readonly Explanation[]): Hint {
  return {
    kind: 'measurement',
    path,
    rank: 3,
    name: null,
    parts,
    explanation: explanations[0] ?? null,
    edits: [],
  };
}

/** The fit first: where the line is full, the figures behind it give way. */
function partsOf(
  setup: Setup,
  session: string,
  take: MeasuredTake,
  show: Show,
): readonly Hint['parts'][number][] {
  if (take.isPending === true) return [{ text: 'being read …', dependsOn: null }];
  const compared = comparisonOf(setup, session, take.take);
  const isCompared =
    compared?.arrival || compared?.polarity || compared?.level || compared?.response;
  const fit = isCompared ? (compared?.summary ?? null) : null;
  const level = levelText(take, show);
  const seat = take.seat === null ? null : ['seats', take.seat, 'at'];
  const texts = [
    ...(fit === null ? [] : [{ text: shortened(fit), dependsOn: null }]),
    ...(take.arrival_s === null ? [] : [{ text: show.time(take.arrival_s), dependsOn: seat }]),
    ...(level === null ? [] : [{ text: level, dependsOn: null }]),
    ...(fit === null && take.polarity === 'inverted'
      ? [{ text: 'inverted', dependsOn: null }]
      : []),
  ];
  return texts;
}

/** A hint's first part is never cut away: it must not fill the line alone. */
const LONGEST_FIT = 34;

/** Of several differences the first ones; how many more there are is said. */
function shortened(summary: string): string {
  if (summary.length <= LONGEST_FIT) return summary;
  const said = summary.split(', ');
  for (let count = said.length - 1; 0 < count; count--) {
    const text = `${said.slice(0, count).join(', ')} and ${said.length - count} more`;
    if (text.length <= LONGEST_FIT) return text;
  }
  return `${summary.slice(0, LONGEST_FIT - 2)} …`;
}
