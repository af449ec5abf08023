// Rule space/proportions: length, width and height keep to the inequality of the listening-room standards.

import { defineRule, type Rule } from '../rule.ts';

interface Fact {
  readonly lower: number;
  readonly lengthOverHeight: number;
  readonly upper: number;
  readonly widthOverHeight: number;
}

/** @source ITU-R BS.1116-3 §8.2.2.3; EBU Tech 3276 App. 2 (from memory): l/h < 3 and w/h < 3 */
const MOST = 3;

export const spaceProportions: Rule = defineRule<Fact>({
  code: 'space/proportions',
  severity: 'information',
  title: 'Room proportions',
  reason:
    'Proportions within 1.1 w/h ≤ l/h ≤ 4.5 w/h − 4 spread the lowest modes more evenly; they promise nothing more.',
  advice:
    'In an existing room look at the modes and at the places of seat and subwoofers; in a plan, change a dimension.',
  source: 'ITU-R BS.1116-3 §8.2.2.3; EBU Tech 3276 App. 2; Walker, BBC RD 1993/8 (from memory)',

  *find({ space }) {
    const proportions = space?.proportions;
    if (!proportions || proportions.walker.passes) return;
    const { lower, lengthOverHeight, upper } = proportions.walker;
    const widthOverHeight = proportions.ratio[1];
    const limit = lengthOverHeight < lower ? lower : Math.min(upper, MOST);
    yield {
      path: ['space', 'size'],
      fact: { lower, lengthOverHeight, upper, widthOverHeight },
      measured: { value: lengthOverHeight, unit: '1' },
      limit: { value: limit, unit: '1' },
    };
  },

  message({ lower, lengthOverHeight, upper, widthOverHeight }) {
    const length = `Length is ${lengthOverHeight.toFixed(2)} times the height`;
    const width = `where the width is ${widthOverHeight.toFixed(2)} times`;
    const [least, most] = [lower.toFixed(2), Math.min(upper, MOST).toFixed(2)];
    if (lower <= lengthOverHeight && lengthOverHeight <= Math.min(upper, MOST)) {
      return `Width is ${widthOverHeight.toFixed(2)} times the height, at most ${MOST} are asked for`;
    }
    return upper < lower
      ? `${length}, and no length suits a width of ${widthOverHeight.toFixed(2)} times`
      : `${length}, ${least} to ${most} are asked for ${width}`;
  },
});
