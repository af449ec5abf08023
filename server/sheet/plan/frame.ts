// From metres in the room to the drawing's own units: one scale both ways, so that angles and distances are true.

export interface XY {
  readonly x: number;
  readonly y: number;
}

export interface Extent {
  readonly left_m: number;
  readonly right_m: number;
  readonly top_m: number;
  readonly bottom_m: number;
}

export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

export interface Frame {
  readonly width: number;
  readonly height: number;
  /** Drawing units a metre. */
  readonly scale: number;
  readonly extent: Extent;
  readonly margins: Margins;
  readonly toDrawing: (across_m: number, down_m: number) => XY;
}

/** Further out than this is a slip of the pen: the drawing is not shrunk for it. */
const FARTHEST_M = 1.5;

/** The room and what stands just outside it, so that a mistake is seen where it is. */
export function extentWith(room: Extent, places: readonly (readonly [number, number])[]): Extent {
  const near = places.filter(
    ([x_m, y_m]) =>
      room.left_m - FARTHEST_M < x_m &&
      x_m < room.right_m + FARTHEST_M &&
      room.top_m - FARTHEST_M < y_m &&
      y_m < room.bottom_m + FARTHEST_M,
  );
  return {
    left_m: Math.min(room.left_m, ...near.map(([x_m]) => x_m)),
    right_m: Math.max(room.right_m, ...near.map(([x_m]) => x_m)),
    top_m: Math.min(room.top_m, ...near.map(([, y_m]) => y_m)),
    bottom_m: Math.max(room.bottom_m, ...near.map(([, y_m]) => y_m)),
  };
}

/** As large as the width allows, but no taller than `heightLimit`. `down` grows downwards in the drawing. */
export function frameFor(
  extent: Extent,
  width: number,
  heightLimit: number,
  margins: Margins,
): Frame {
  const across_m = Math.max(extent.right_m - extent.left_m, 0.1);
  const down_m = Math.max(extent.bottom_m - extent.top_m, 0.1);
  const scale = Math.min(
    (width - margins.left - margins.right) / across_m,
    (heightLimit - margins.top - margins.bottom) / down_m,
  );
  const spare = width - margins.left - margins.right - across_m * scale;
  const left = margins.left + spare / 2;
  return {
    width,
    height: margins.top + down_m * scale + margins.bottom,
    scale,
    extent,
    margins: { ...margins, left },
    toDrawing: (x_m, y_m) => ({
      x: left + (x_m - extent.left_m) * scale,
      y: margins.top + (y_m - extent.top_m) * scale,
    }),
  };
}

export function pointsText(points: readonly XY[]): string {
  return points.map(({ x, y }) => `${round(x)},${round(y)}`).join(' ');
}

/** A hundredth of a unit is below what any screen or printer shows. */
export function round(value: number): number {
  return Math.round(value * 100) / 100;
}
