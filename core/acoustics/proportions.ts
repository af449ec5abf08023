// Proportions of a room: the inequality of the listening-room standards, whole-number ratios, named ratios, axial spacing.

import type { BoxMode } from './boxModes.ts';
import { positive } from './guard.ts';

/** A room by its proportions: the longer plan side, the shorter, the height. */
export interface Proportions {
  readonly lengthToHeight_ratio: number;
  readonly widthToHeight_ratio: number;
}

/** Proportions of a plan of two sides (any order) and a height. @throws RangeError unless all > 0 */
export function proportions(side_m: number, otherSide_m: number, height_m: number): Proportions {
  const height = positive('height_m', height_m);
  positive('side_m', side_m);
  positive('otherSide_m', otherSide_m);
  return {
    lengthToHeight_ratio: Math.max(side_m, otherSide_m) / height,
    widthToHeight_ratio: Math.min(side_m, otherSide_m) / height,
  };
}

export interface InequalityVerdict extends Proportions {
  /** least l/h: 1.1 w/h */
  readonly least_ratio: number;
  /** greatest l/h: 4.5 w/h − 4 */
  readonly greatest_ratio: number;
  /** what is broken, empty if nothing */
  readonly broken: readonly ('too_short' | 'too_long' | 'length_over_3' | 'width_over_3')[];
  readonly passes: boolean;
}

/**
 * 1.1 w/h ≤ l/h ≤ 4.5 w/h − 4, with l/h < 3 and w/h < 3.
 *
 * @source Walker, BBC RD 1993/8; EBU Tech 3276 App. 2; ITU-R BS.1116-3 §8.2.2.3
 */
export function proportionInequality(room: Proportions): InequalityVerdict {
  const { lengthToHeight_ratio: l, widthToHeight_ratio: w } = room;
  const least_ratio = 1.1 * w;
  const greatest_ratio = 4.5 * w - 4;
  const broken: InequalityVerdict['broken'][number][] = [];
  if (l < least_ratio) broken.push('too_short');
  if (greatest_ratio < l) broken.push('too_long');
  if (3 <= l) broken.push('length_over_3');
  if (3 <= w) broken.push('width_over_3');
  return { ...room, least_ratio, greatest_ratio, broken, passes: broken.length === 0 };
}

export interface WholeRatio {
  readonly of: 'length/height' | 'width/height' | 'length/width';
  readonly ratio: number;
  readonly wholeCount: number;
  /** (ratio − whole)/whole */
  readonly deviation_ratio: number;
}

/**
 * Ratios of two sides that lie near a whole number, where axial modes of two directions fall together.
 *
 * @param within_ratio 0.05 for the ±5 % of the source
 * @source EBU Tech 3276 App. 2 (from memory)
 */
export function wholeNumberRatios(room: Proportions, within_ratio: number): readonly WholeRatio[] {
  const { lengthToHeight_ratio: l, widthToHeight_ratio: w } = room;
  const ratios = [
    { of: 'length/height', ratio: l },
    { of: 'width/height', ratio: w },
    { of: 'length/width', ratio: l / w },
  ] as const;
  return ratios
    .map(({ of, ratio }) => {
      const wholeCount = Math.max(1, Math.round(ratio));
      return { of, ratio, wholeCount, deviation_ratio: (ratio - wholeCount) / wholeCount };
    })
    .filter(({ deviation_ratio }) => Math.abs(deviation_ratio) <= within_ratio + 1e-12);
}

export interface NamedRatio extends Proportions {
  readonly name: string;
  readonly source: string;
}

const TABLE_SOURCE =
  'tables of room ratios in handbooks; who gets the credit differs between them (attribution from memory)';

/** Ratios that handbooks list by name. None is proof of good bass, and two of them break the inequality. */
export const NAMED_RATIOS: readonly NamedRatio[] = [
  ['Sepmeyer A (1965)', 1.14, 1.39],
  ['Sepmeyer B (1965)', 1.28, 1.54],
  ['Sepmeyer C (1965)', 1.6, 2.33],
  ['Louden 1 (1971)', 1.4, 1.9],
  ['Louden 2 (1971)', 1.3, 1.9],
  ['Volkmann 2 : 3 : 5 (1942)', 1.5, 2.5],
  ['Boner 1 : 2^(1/3) : 4^(1/3) (1942)', 1.26, 1.59],
].map(([name, width, length]) => ({
  name: String(name),
  widthToHeight_ratio: Number(width),
  lengthToHeight_ratio: Number(length),
  source: TABLE_SOURCE,
}));

export interface RatioMatch extends NamedRatio {
  /** greatest relative difference of the two ratios */
  readonly deviation_ratio: number;
}

/** The named ratios, nearest first. */
export function nearestNamedRatios(room: Proportions): readonly RatioMatch[] {
  return NAMED_RATIOS.map((named) => ({
    ...named,
    deviation_ratio: Math.max(
      Math.abs(room.lengthToHeight_ratio / named.lengthToHeight_ratio - 1),
      Math.abs(room.widthToHeight_ratio / named.widthToHeight_ratio - 1),
    ),
  })).sort((a, b) => a.deviation_ratio - b.deviation_ratio);
}

export interface AxialGap {
  readonly below: BoxMode;
  readonly above: BoxMode;
  readonly gap_hz: number;
}

/**
 * Axial modes that crowd, and gaps that are too wide.
 *
 * @param modes of any kind, ascending; only axial ones count
 * @param least_hz 5 for the source's rule
 * @param most_hz 20 for the source's rule
 * @source Handbook for Sound Engineers §6.6: none closer than 5 Hz, none more than 20 Hz from the next
 */
export function axialSpacing(
  modes: readonly BoxMode[],
  least_hz: number,
  most_hz: number,
): { readonly crowded: readonly AxialGap[]; readonly wide: readonly AxialGap[] } {
  const axial = modes.filter(({ kind }) => kind === 'axial');
  const gaps: AxialGap[] = [];
  for (const [i, above] of axial.entries()) {
    const below = axial[i - 1];
    if (below) gaps.push({ below, above, gap_hz: above.frequency_hz - below.frequency_hz });
  }
  return {
    crowded: gaps.filter(({ gap_hz }) => gap_hz < least_hz),
    wide: gaps.filter(({ gap_hz }) => most_hz < gap_hz),
  };
}
