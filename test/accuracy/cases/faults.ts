// Faults of known size in a synthesised room: what the likeliest cause says of them, read from its sentence and its edit as a user would.

import type { LikelyCause, SessionVerdict } from '../../../core/measured/verification.ts';
import { readQuantity } from '../../../schema/quantity/read.ts';
import type { Dimension } from '../../../schema/quantity/units.ts';
import { HERON } from '../../synthesis/heronTruth.ts';
import { causeOf, judgedFault } from '../../synthesis/judgedFault.ts';
import type { Comparison, Pair } from '../comparison.ts';

const IMAGES = 'injected into image sources with noise (test/synthesis)';

/** The figure in a sentence: `left seems to be delayed by 2.31 ms more …`. */
function said(cause: LikelyCause | null, figure: RegExp): number {
  const [, text = '', way = ''] = figure.exec(cause?.message ?? '') ?? [];
  const value = Number(text.replace('−', '-'));
  return text === '' ? Number.NaN : /less|quieter/.test(way) ? -value : value;
}

/** What the edit would write at the end of this path. */
function written(cause: LikelyCause | null, key: string, quantity: Dimension): number {
  const edit = (cause?.fix?.edits ?? []).find(({ path }) => path.at(-1) === key);
  if (edit?.do !== 'set') return Number.NaN;
  return readQuantity(String(edit.value), { quantity }).quantity?.si ?? Number.NaN;
}

const DELAYS_S = [
  ['left', 0.0013],
  ['right', 0.0034],
] as const;

function delayPairs(): readonly Pair[] {
  return DELAYS_S.map(([who, late_s], i) => {
    const truth = { ...HERON, delay_s: { ...HERON.delay_s, [who]: late_s } };
    const cause = causeOf(judgedFault(truth, 31 + i), 'delay');
    return {
      what: `${who} ${1000 * late_s} ms late`,
      actual: said(cause, new RegExp(`^${who} .* by ([\\d.]+) ms (more|less)`)),
      expected: 1000 * late_s,
    };
  });
}

const LEVELS_DB = [
  ['sub', 5],
  ['left', -3],
] as const;

function levelPairs(): readonly Pair[] {
  return LEVELS_DB.map(([who, by_db], i) => {
    const level_db = { ...HERON.level_db, [who]: HERON.level_db[who] + by_db };
    const cause = causeOf(judgedFault({ ...HERON, level_db }, 41 + i), 'level');
    return {
      what: `${who} ${by_db} dB`,
      actual: said(cause, new RegExp(`^${who} .* ([\\d.]+) dB (louder|quieter)`)),
      expected: by_db,
    };
  });
}

const SUB_AT_M = [
  [3.1, 1.9],
  [0.9, 3.4],
] as const;

/** Both coordinates. */
function movedSubPairs(): readonly Pair[] {
  return SUB_AT_M.flatMap(([x, y], i) => {
    const at = { ...HERON.at, sub: [x, y, 0.25] as const };
    const cause = causeOf(judgedFault({ ...HERON, at }, 51 + i, 'beside'), 'moved');
    return (['x', 'y'] as const).map((axis) => ({
      what: `sub at ${x}, ${y} m: ${axis}`,
      actual: written(cause, axis, 'length'),
      expected: axis === 'x' ? x : y,
    }));
  });
}

/** A main that stands 20 cm farther back than its file has it. */
function distancePairs(): readonly Pair[] {
  const [x, y, z] = HERON.at.right;
  const at = { ...HERON.at, right: [x, y + 0.2, z] as const };
  const cause = causeOf(judgedFault({ ...HERON, at }, 61), 'distance');
  return [{ what: 'right: y', actual: written(cause, 'y', 'length'), expected: y + 0.2 }];
}

function airPairs(): readonly Pair[] {
  const temperature_k = HERON.temperature_k + 11;
  const truth = { ...HERON, temperature_k };
  const cause = causeOf(judgedFault(truth, 602, 'near_and_far'), 'air');
  return [
    {
      what: '11 K warmer',
      actual: said(cause, /: ([\d.]+) °C rather than/),
      expected: temperature_k - 273.15,
    },
  ];
}

/** Two at once: each figure as if the other fault were not there. */
function togetherPairs(): readonly Pair[] {
  const turned = { ...HERON.inverted, sub: !HERON.inverted.sub };
  const first = {
    ...HERON,
    inverted: turned,
    delay_s: { ...HERON.delay_s, left: HERON.delay_s.left + 0.0021 },
  };
  const one = judgedFault(first, 71);
  const level_db = { ...HERON.level_db, sub: HERON.level_db.sub + 6 };
  const other = judgedFault({ ...first, inverted: HERON.inverted, level_db }, 72);
  const delay = /^left .* by ([\d.]+) ms (more|less)/;
  return [
    { what: 'left late, sub turned', actual: said(inFirst(one, 'delay'), delay), expected: 2.1 },
    { what: 'left late, sub louder', actual: said(inFirst(other, 'delay'), delay), expected: 2.1 },
  ];
}

/** Only where the likeliest explanation is clear and has two causes. */
function inFirst({ verdict, causes }: SessionVerdict, kind: string): LikelyCause | null {
  const own = causes.filter(({ explanation }) => explanation === 1);
  if (verdict !== 'explained' || own.length !== 2) return null;
  return own.find((cause) => cause.kind === kind) ?? null;
}

export const faultCases: readonly Comparison[] = [
  {
    computation: 'causes: a delay that is not in the file',
    source: IMAGES,
    unit: 'ms',
    tolerance: 0.06,
    because: 'takes by hand: 15 mm of the microphone’s place are 0.044 ms, peaks 0.02 ms',
    count: DELAYS_S.length,
    pairs: delayPairs,
  },
  {
    computation: 'causes: a delay, together with another fault',
    source: IMAGES,
    unit: 'ms',
    tolerance: 0.06,
    because: 'as for a delay alone',
    count: 2,
    pairs: togetherPairs,
  },
  {
    computation: 'causes: a level that is not in the file',
    source: IMAGES,
    unit: 'dB',
    tolerance: 1.5,
    because:
      'a plan that was not read off the truth is so far off between the bass and the middle band',
    count: LEVELS_DB.length,
    pairs: levelPairs,
  },
  {
    computation: 'causes: a subwoofer moved',
    source: IMAGES,
    unit: 'm',
    tolerance: 0.25,
    because: 'a twentieth of the wavelength at 70 Hz, at the two coordinates each',
    count: 2 * SUB_AT_M.length,
    pairs: movedSubPairs,
  },
  {
    computation: 'causes: a loudspeaker farther back',
    source: IMAGES,
    unit: 'm',
    tolerance: 0.04,
    because: 'the microphone’s place and the other take’s',
    count: 1,
    pairs: distancePairs,
  },
  {
    computation: 'causes: warmer air',
    source: IMAGES,
    unit: '°C',
    tolerance: 4,
    because: '15 mm of the microphone’s place on 3.4 m of flight are 2.6 K',
    count: 1,
    pairs: airPairs,
  },
];
