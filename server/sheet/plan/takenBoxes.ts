// Where no word may stand in the plan, beside the marks of things: at its edges and on its walls.

import type { Frame } from './frame.ts';
import type { Box } from './labels.ts';
import type { Wall } from './outline.ts';

/** Where dimension lines and the scale bar stand: no words there. */
export function edgeBoxes(frame: Frame): readonly Box[] {
  const start = frame.toDrawing(frame.extent.left_m, frame.extent.top_m);
  return [
    { x: 0, y: 0, width: frame.width, height: start.y - 2 },
    { x: 0, y: 0, width: start.x - 4, height: frame.height },
    { x: 0, y: frame.height - 24, width: frame.width, height: 24 },
  ];
}

/** Words keep off the walls too, where they run straight across or down. */
export function wallBoxes(walls: readonly Wall[], frame: Frame): readonly Box[] {
  return walls.flatMap(({ from, to }) => {
    const start = frame.toDrawing(...from);
    const end = frame.toDrawing(...to);
    const isStraight = from[0] === to[0] || from[1] === to[1];
    return isStraight
      ? [
          {
            x: Math.min(start.x, end.x) - 2,
            y: Math.min(start.y, end.y) - 2,
            width: Math.abs(end.x - start.x) + 4,
            height: Math.abs(end.y - start.y) + 4,
          },
        ]
      : [];
  });
}
