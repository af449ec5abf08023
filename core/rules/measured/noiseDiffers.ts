// Rule measured/noise-differs: the file tells the noise that was recorded.

import type { MeasuredNoise } from '../../measured/measuredFigures.ts';
import { noiseText } from '../../measured/noiseLimit.ts';
import type { Setup } from '../../setup.ts';
import { defineRule, type Rule } from '../rule.ts';

type Fact =
  | { readonly kind: 'untold'; readonly recording: string }
  | {
      readonly kind: 'band';
      readonly recording: string;
      readonly frequency_hz: number;
      readonly level_db: number;
      readonly told_db: number;
    }
  | {
      readonly kind: 'level';
      readonly recording: string;
      readonly level_dba: number;
      readonly told_dba: number;
    };

/** Noise of a building changes by so much from day to day. Common practice, no source. */
const MOST_DB = 3;

export const measuredNoiseDiffers: Rule = defineRule<Fact>({
  code: 'measured/noise-differs',
  severity: 'information',
  title: 'Recorded noise is not what the file tells',
  reason: 'Headroom over the noise and the noise of the electronics are held against the file.',
  advice: 'Write what was recorded, or look for what was running when it was.',
  source: 'common practice, no source: 3 dB in an octave, or in dBA',

  *find(setup) {
    const newest = newestNoise(setup);
    if (newest === null) return;
    const fact = differenceOf(setup, newest);
    const value = noiseText(newest);
    if (fact === null || value === null) return;
    yield {
      path: fact.kind === 'untold' ? newest.path : ['space', 'background_noise'],
      fact,
      ...(fact.kind === 'untold' ? { severity: 'hint' as const } : figures(fact)),
      related: [{ path: newest.path, message: `recorded as ${newest.recording}` }],
      fixes: [
        {
          title: `Write the noise of ${newest.recording}`,
          edits: [{ do: 'set', path: ['space', 'background_noise'], value }],
          safe: false,
        },
      ],
    };
  },

  message(fact, show) {
    switch (fact.kind) {
      case 'untold':
        return `${fact.recording}: the file does not tell this noise under space.background_noise`;
      case 'band':
        return `${fact.recording} has ${show.level(fact.level_db)} of noise at ${show.frequency(fact.frequency_hz)}, where the file tells ${show.level(fact.told_db)}`;
      case 'level':
        return `${fact.recording} has ${fact.level_dba.toFixed(1)} dBA of noise, where the file tells ${fact.told_dba.toFixed(1)} dBA`;
    }
  },
});

/** At the reference seat where there is such a recording; of the newest session that has any. */
function newestNoise({ measured, room }: Setup): MeasuredNoise | null {
  const sessions = (measured?.sessions ?? []).toSorted((one, other) =>
    (other.date ?? '').localeCompare(one.date ?? ''),
  );
  for (const { noise = [] } of sessions) {
    const known = noise.filter(({ noise: figures }) => figures?.basis === 'spl');
    const reference = room.seats.find(({ isReference }) => isReference)?.id;
    const found = known.find(({ seat }) => seat === reference) ?? known[0];
    if (found) return found;
  }
  return null;
}

function differenceOf(
  { room, background }: Setup,
  { recording, noise }: MeasuredNoise,
): Fact | null {
  if (noise === null) return null;
  const given = room.space.backgroundNoise;
  if (given === null) return { kind: 'untold', recording };
  if (background?.from === 'level' && background.level_dba !== null)
    return MOST_DB < Math.abs(noise.a_db - background.level_dba)
      ? { kind: 'level', recording, level_dba: noise.a_db, told_dba: background.level_dba }
      : null;
  const [worst] = (background?.bands ?? [])
    .flatMap(({ frequency_hz, level_db: told_db }) => {
      const level_db = noise.octaves.find((one) => one.frequency_hz === frequency_hz)?.level_db;
      return level_db !== undefined && MOST_DB < Math.abs(level_db - told_db)
        ? [{ frequency_hz, level_db, told_db }]
        : [];
    })
    .toSorted(
      (one, other) =>
        Math.abs(other.level_db - other.told_db) - Math.abs(one.level_db - one.told_db),
    );
  return worst === undefined ? null : { kind: 'band', recording, ...worst };
}

function figures(fact: Exclude<Fact, { readonly kind: 'untold' }>) {
  const [value, limit, unit] =
    fact.kind === 'band'
      ? [fact.level_db, fact.told_db, 'dB']
      : [fact.level_dba, fact.told_dba, 'dBA'];
  return { measured: { value, unit }, limit: { value: limit, unit } };
}
