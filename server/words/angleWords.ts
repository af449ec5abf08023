// The direction that a loudspeaker is heard from, in words.

import type { Setup } from '../../core/setup.ts';
import type { Show } from '../../core/show.ts';
import { seatFigures } from './arrivalWords.ts';
import { code, type Explanation } from './explanation.ts';

/** Angles within a tenth of a degree of 0 are said to be in front. */
const STRAIGHT_rad = (0.05 * Math.PI) / 180;

/** "L 30.2°", "R 110.0° · up 45.0°". */
export function angleLabel(azimuth_rad: number, elevation_rad: number, show: Show): string {
  const side = azimuth_rad < 0 ? 'R' : 'L';
  const across =
    Math.abs(azimuth_rad) < STRAIGHT_rad
      ? show.angle(0)
      : `${side} ${show.angle(Math.abs(azimuth_rad))}`;
  if (Math.abs(elevation_rad) < ELEVATED_rad) return across;
  return `${across} · ${elevation_rad < 0 ? 'down' : 'up'} ${show.angle(Math.abs(elevation_rad))}`;
}

/** Less than 5° up or down counts as ear height in a hint; the hover tells it all the same. */
const ELEVATED_rad = (5 * Math.PI) / 180;

export function explainAngle(
  setup: Setup,
  seat: string,
  source: string,
  show: Show,
): Explanation | null {
  const angle = seatFigures(setup, seat)?.angles.find((one) => one.source === source);
  if (!angle) return null;
  const side = angle.azimuth_rad < 0 ? 'right' : 'left';
  const lines = [
    `azimuth **${show.angle(Math.abs(angle.azimuth_rad))}** to the ${side} (left counts +, as in ITU-R BS.2051)`,
    `elevation ${show.angle(angle.elevation_rad)}`,
  ];
  let positioned: string | null = null;
  for (const layout of setup.layouts) {
    const position = layout.positions.find(({ speaker }) => speaker === source);
    if (!position || layout.seat !== seat) continue;
    const [from_rad, to_rad] = position.wantAzimuth_rad;
    positioned = layout.source;
    const [low_rad, high_rad] = position.wantElevation_rad;
    lines.push(
      `${position.label} of ${layout.layout} asks for ${range(from_rad, to_rad, show)}, elevation ${range(low_rad, high_rad, show)}`,
    );
  }
  return {
    title: `${code(source)} seen from ${code(seat)}`,
    lines,
    source: positioned,
  };
}

function range(from_rad: number, to_rad: number, show: Show): string {
  return from_rad === to_rad
    ? show.angle(from_rad)
    : `${show.angle(from_rad)} to ${show.angle(to_rad)}`;
}
