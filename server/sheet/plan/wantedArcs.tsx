// Where the standard wants the loudspeakers: short arcs around the reference seat, one a position of the layout.

import { arc } from 'd3-shape';
import type { VNode } from 'preact';
import type { Setup } from '../../../core/setup.ts';
import { type Frame, round } from './frame.ts';
import type { Thing } from './things.ts';

/** A direction without tolerance is drawn this wide, so that it can be seen. */
const LEAST_RAD = (1.5 * Math.PI) / 180;

export function WantedArcs({
  setup,
  seat,
  frame,
}: {
  readonly setup: Setup;
  readonly seat: Thing;
  readonly frame: Frame;
}): VNode | null {
  const layout = setup.layouts.find((one) => one.seat === seat.id);
  if (layout === undefined) return null;
  const centre = frame.toDrawing(seat.at.x_m, seat.at.y_m);
  const radius = Math.max(nearest_m(setup, seat.id) * frame.scale - 16, 24);
  return (
    <g class="wanted" transform={`translate(${round(centre.x)} ${round(centre.y)})`}>
      {layout.positions.filter(isInPlan).map(({ label, wantAzimuth_rad: [from_rad, to_rad] }) => (
        <path key={label} d={sector(from_rad, to_rad, radius)} />
      ))}
    </g>
  );
}

/** LFE may come from anywhere, and what hangs high above has no direction in plan worth drawing. */
function isInPlan({
  wantAzimuth_rad: [from_rad, to_rad],
  wantElevation_rad: [low_rad],
}: Setup['layouts'][number]['positions'][number]): boolean {
  return to_rad - from_rad < Math.PI && low_rad < Math.PI / 4;
}

/** The nearest loudspeaker's distance; a metre where none is known. */
function nearest_m(setup: Setup, seat: string): number {
  const arrivals = setup.seats.find(({ id }) => id === seat)?.arrivals ?? [];
  return arrivals.length === 0 ? 1 : Math.min(...arrivals.map(({ distance_m }) => distance_m));
}

/** d3 counts clockwise from the top; azimuth counts to the listener's left, who looks to the top. */
function sector(from_rad: number, to_rad: number, radius: number): string {
  const middle_rad = (from_rad + to_rad) / 2;
  const half_rad = Math.max(Math.abs(to_rad - from_rad), LEAST_RAD) / 2;
  return (
    arc()({
      innerRadius: radius,
      outerRadius: radius + 5,
      startAngle: -(middle_rad + half_rad),
      endAngle: -(middle_rad - half_rad),
    }) ?? ''
  );
}
