// How far a loudspeaker may stand outside a layout's angles before anyone says so.

import type { Policy } from '../../schema/model/room.ts';

/** @source common practice, no source: ±2° for the front pair, ±5° for the rest (ITU-R BS.775 and BS.2051 give ranges, no tolerance) */
const FRONT_RAD = (2 * Math.PI) / 180;
const OTHERS_RAD = (5 * Math.PI) / 180;
/** @source common practice, no source; half of the 10° that ITU-R BS.1116 allows for tilt (from memory) */
const ELEVATION_RAD = (5 * Math.PI) / 180;

/** The policy's `azimuth` and `elevation`, else what practice allows. */
export function layoutTolerances(
  policy: Policy,
  { label }: { readonly label: string },
): { readonly azimuth_rad: number; readonly elevation_rad: number } {
  const isFront = /^M[+-]0[03]0$/.test(label);
  return {
    azimuth_rad: policy.tolerances.azimuth ?? (isFront ? FRONT_RAD : OTHERS_RAD),
    elevation_rad: policy.tolerances.elevation ?? ELEVATION_RAD,
  };
}
