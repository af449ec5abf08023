// Where the standard wants the loudspeakers: short arcs around the reference seat, one a position of the layout.

import { arc } from 'd3-shape';
import type { VNode } from 'preact';
import type { Setup } from '../../../core/setup.ts';
import { type Frame, round, type XY } from './frame.ts';
import type { Box } from './labels.ts';
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
  const { centre, radius } = circleOf(setup, seat, frame);
  return (
    <g class="wanted" transform={`translate(${round(centre.x)} ${round(centre.y)})`}>
      {layout.positions.filter(isInPlan).map(({ label, wantAzimuth_rad: [from_rad, to_rad] }) => (
        <path key={label} d={sector(from_rad, to_rad, radius)} />
      ))}
    </g>
  );
}

/** Width of an arc's band. */
const BAND_PX = 5;
/** Apart along an arc, so that boxes of its width leave no gap. */
const STEP_RAD = Math.PI / 60;

/** The arcs as small boxes that no word may cover. */
export function arcBoxes(setup: Setup, seat: Thing, frame: Frame): readonly Box[] {
  const { centre, radius } = circleOf(setup, seat, frame);
  const positions = setup.layouts.find((one) => one.seat === seat.id)?.positions ?? [];
  return positions.filter(isInPlan).flatMap(({ wantAzimuth_rad: [from_rad, to_rad] }) => {
    const count = Math.max(1, Math.ceil((to_rad - from_rad) / STEP_RAD));
    return Array.from({ length: count + 1 }, (_, index) => {
      const azimuth_rad = from_rad + ((to_rad - from_rad) * index) / count;
      const middle = radius + BAND_PX / 2;
      return {
        x: centre.x - Math.sin(azimuth_rad) * middle - BAND_PX / 2,
        y: centre.y - Math.cos(azimuth_rad) * middle - BAND_PX / 2,
        width: BAND_PX,
        height: BAND_PX,
      };
    });
  });
}

function circleOf(
  setup: Setup,
  seat: Thing,
  frame: Frame,
): { readonly centre: XY; readonly radius: number } {
  return {
    centre: frame.toDrawing(seat.at.x_m, seat.at.y_m),
    radius: Math.max(nearest_m(setup, seat.id) * frame.scale - 16, 24),
  };
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
      outerRadius: radius + BAND_PX,
      startAngle: -(middle_rad + half_rad),
      endAngle: -(middle_rad - half_rad),
    }) ?? ''
  );
}
