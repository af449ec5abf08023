// Part of Setup: where each subwoofer stands against the places that practice avoids or begins with.

import type { Room } from '../../schema/model/room.ts';
import { planDistance_m } from '../acoustics/point.ts';
import type { LayoutFigures, PlacementFigures } from '../setup.ts';
import { placedSources, type Sounding } from './referenceSeat.ts';
import { roomShape } from './roomShape.ts';

export interface PlacementPart {
  readonly placement: readonly PlacementFigures[];
}

/** One entry for each subwoofer that has a place. */
export function placementPart(
  room: Sounding & Pick<Room, 'space'>,
  layouts: readonly LayoutFigures[],
): PlacementPart {
  const shape = roomShape(room.space);
  const sources = placedSources(room);
  const lines_m = layouts.flatMap((layout) => frontLine_m(sources, layout));
  return {
    placement: sources
      .filter(({ isSubwoofer }) => isSubwoofer)
      .map(({ id, at }) => {
        const corners = shape?.plan.map((corner) => planDistance_m(corner, at)) ?? [];
        return {
          source: id,
          fromWidthMidline_m: shape?.box ? at.x_m - shape.box.x_m / 2 : null,
          fromDepthMidline_m: shape?.box ? at.y_m - shape.box.y_m / 2 : null,
          fromCorner_m: corners.length === 0 ? null : Math.min(...corners),
          behindMains_m: leastBehind_m(lines_m, at.y_m),
        };
      }),
  };
}

/** Behind the nearest line, where several sets have one each. */
function leastBehind_m(lines_m: readonly number[], y_m: number): number | null {
  const behind = lines_m.map((line_m) => line_m - y_m);
  return behind.toSorted((a, b) => Math.abs(a) - Math.abs(b))[0] ?? null;
}

/** The line of a front pair: mean distance of left and right from the front wall; empty without a pair. */
function frontLine_m(
  sources: ReturnType<typeof placedSources>,
  { positions }: LayoutFigures,
): readonly number[] {
  const [left, right] = ['M+030', 'M-030'].map((label) => {
    const id = positions.find((position) => position.label === label)?.speaker;
    return sources.find((source) => source.id === id)?.at.y_m;
  });
  return left === undefined || right === undefined ? [] : [(left + right) / 2];
}
