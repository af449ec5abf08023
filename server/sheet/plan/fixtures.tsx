// Fixtures in plan: what must stay clear is hatched one way, obstacles are plain boxes, panels lie along their wall.

import type { VNode } from 'preact';
import type { Fixture } from '../../../schema/model/room.ts';
import { placeOf } from '../source.tsx';
import { type Frame, round } from './frame.ts';
import type { Wall } from './outline.ts';

interface FixtureProps {
  readonly fixture: Fixture;
  readonly frame: Frame;
  readonly walls: readonly Wall[];
}

export function FixtureMark({ fixture, frame, walls }: FixtureProps): VNode | null {
  const place = placeOf(['space', 'fixtures', fixture.id]);
  if (fixture.kind === 'panel') {
    const line = panelLine(fixture, frame, walls);
    return line === null ? null : <path class="fixture fixture-panel" d={line} {...place} />;
  }
  if (fixture.x_m === null || fixture.y_m === null) return null;
  const from = frame.toDrawing(fixture.x_m[0], fixture.y_m[0]);
  const to = frame.toDrawing(fixture.x_m[1], fixture.y_m[1]);
  return (
    <g class={`fixture fixture-${fixture.kind}`} {...place}>
      <rect
        x={round(from.x)}
        y={round(from.y)}
        width={round(Math.max(0, to.x - from.x))}
        height={round(Math.max(0, to.y - from.y))}
      />
      {fixture.because === null ? null : <title>{`${fixture.id}: ${fixture.because}`}</title>}
    </g>
  );
}

/** `along` counts in the room's own axes: x along a wall that runs across, y along one that runs to the back. */
function panelLine(
  fixture: Extract<Fixture, { kind: 'panel' }>,
  frame: Frame,
  walls: readonly Wall[],
): string | null {
  const wall = walls.find(({ name }) => name === fixture.wall);
  if (wall === undefined || fixture.along_m === null) return null;
  const [startX_m, startY_m] = wall.from;
  const [endX_m, endY_m] = wall.to;
  const isAcross = Math.abs(endY_m - startY_m) <= Math.abs(endX_m - startX_m);
  const point = (along_m: number): string => {
    const share = isAcross
      ? (along_m - startX_m) / (endX_m - startX_m)
      : (along_m - startY_m) / (endY_m - startY_m);
    const { x, y } = frame.toDrawing(
      startX_m + share * (endX_m - startX_m),
      startY_m + share * (endY_m - startY_m),
    );
    return `${round(x)} ${round(y)}`;
  };
  return `M${point(fixture.along_m[0])} L${point(fixture.along_m[1])}`;
}
