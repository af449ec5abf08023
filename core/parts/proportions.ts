// The proportions of a box room against the listening-room standards and the ratios that handbooks name.

import type { BoxSize } from '../acoustics/boxModes.ts';
import {
  nearestNamedRatios,
  proportionInequality,
  proportions,
  wholeNumberRatios,
} from '../acoustics/proportions.ts';
import type { SpaceFigures } from '../setup.ts';

/** @source EBU Tech 3276 App. 2 (from memory): ratios within ±5 % of a whole number are to be avoided */
const WHOLE_WITHIN = 0.05;

export function proportionPart(size: BoxSize): SpaceFigures['proportions'] {
  const ratios = proportions(size.x_m, size.y_m, size.z_m);
  const walker = proportionInequality(ratios);
  const [named] = nearestNamedRatios(ratios);
  return {
    ratio: [1, ratios.widthToHeight_ratio, ratios.lengthToHeight_ratio],
    walker: {
      lower: walker.least_ratio,
      lengthOverHeight: walker.lengthToHeight_ratio,
      upper: walker.greatest_ratio,
      passes: walker.passes,
    },
    nearIntegers: wholeNumberRatios(ratios, WHOLE_WITHIN).map(({ of, ratio }) => ({
      sides: of,
      ratio,
    })),
    nearestNamed: named
      ? {
          name: named.name,
          ratio: [1, named.widthToHeight_ratio, named.lengthToHeight_ratio],
          off: named.deviation_ratio,
        }
      : null,
  };
}
