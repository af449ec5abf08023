// Pressure over the plan at one frequency, drawn under what stands in it; and its key.

import type { VNode } from 'preact';
import type { FieldMap } from '../../../core/fieldFigures.ts';
import type { Frame } from './frame.ts';
import { BAND_COLORS, BAND_DB, pressureBands, topOf } from './pressureBands.ts';

export function PressureMap({
  map,
  frame,
}: {
  readonly map: FieldMap;
  readonly frame: Frame;
}): VNode {
  return (
    <g class="pressure">
      {pressureBands(map, frame).map(({ color, path }) => (
        <path key={color} fill={color} d={path} />
      ))}
    </g>
  );
}

/** From the lowest band to the highest, with the levels at its ends and in its middle. */
export function PressureKey({ map }: { readonly map: FieldMap }): VNode {
  const top_db = topOf(map);
  const bottom_db = top_db - BAND_COLORS.length * BAND_DB;
  return (
    <span class="pressure-key">
      <span>{`${bottom_db} and less`.replace('-', '\u2212')}</span>
      <svg width="120" height="12" viewBox="0 0 10 1" preserveAspectRatio="none" aria-hidden="true">
        {BAND_COLORS.map((color, index) => (
          <rect key={color} x={index} width="1" height="1" fill={color} />
        ))}
      </svg>
      <span>{`${top_db} dB SPL and more`.replace('-', '\u2212')}</span>
    </span>
  );
}
