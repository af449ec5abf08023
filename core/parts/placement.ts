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
  const mainsLine_m = frontLine_m(sources, layouts);
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
          behindMains_m: mainsLine_m === null ? null : mainsLine_m - at.y_m,
        };
      }),
  };
}

/** The line of the front pair: mean distance of left and right from the front wall. */
function frontLine_m(
  sources: ReturnType<typeof placedSources>,
  layouts: readonly LayoutFigures[],
): number | null {
  const [first] = layouts;
  const fronts = ['M+030', 'M-030'].flatMap((label) => {
    const id = first?.positions.find((position) => position.label === label)?.speaker;
    const y_m = sources.find((source) => source.id === id)?.at.y_m;
    return y_m === undefined ? [] : [y_m];
  });
  if (fronts.length < 2) return null;
  return fronts.reduce((sum, y_m) => sum + y_m, 0) / fronts.length;
}
