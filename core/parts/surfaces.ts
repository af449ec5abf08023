// The room's surfaces with their areas: walls less the panels on them, the panels, floor and ceiling.

import type { Point } from '../../schema/model/quantities.ts';
import type { Covering, Space } from '../../schema/model/room.ts';
import { ceilingArea_m2, wallAreas_m2 } from '../acoustics/ceiling.ts';
import { planDistance_m } from '../acoustics/point.ts';
import { area_m2 } from '../acoustics/polygon.ts';
import type { RoomShape } from './roomShape.ts';

export interface CoveredArea {
  /** floor, ceiling or the wall's name; for a panel the wall that it hangs on. */
  readonly surface: string;
  readonly area_m2: number;
  /** null where the file does not say. */
  readonly covering: Covering | null;
}

/** Empty where the room's height is not known. Panels whose size or covering is not known are left out. */
export function coveredAreas(
  { plan, wallNames, ceiling }: RoomShape,
  { surfaces, fixtures }: Pick<Space, 'surfaces' | 'fixtures'>,
): readonly CoveredArea[] {
  if (ceiling === null) return [];
  const coverings = new Map(surfaces.map(({ name, covering }) => [name, covering]));
  const bare = [
    { surface: 'floor', area_m2: area_m2(plan) },
    { surface: 'ceiling', area_m2: ceilingArea_m2(plan, ceiling) },
    ...wallAreas_m2(plan, ceiling).map((wall_m2, index) => ({
      surface: wallNames[index] ?? '',
      area_m2: wall_m2,
    })),
  ];
  const panels = fixtures.flatMap((fixture): CoveredArea[] => {
    if (fixture.kind !== 'panel' || fixture.covering === null) return [];
    if (fixture.along_m === null || fixture.z_m === null) return [];
    const [from_m, to_m] = fixture.along_m;
    const [low_m, high_m] = fixture.z_m;
    const panel_m2 = Math.max(0, to_m - from_m) * Math.max(0, high_m - low_m);
    return [{ surface: fixture.wall, area_m2: panel_m2, covering: fixture.covering }];
  });
  const walls = bare.map(({ surface, area_m2: bare_m2 }) => ({
    surface,
    area_m2: Math.max(0, bare_m2 - coveredBy(panels, surface)),
    covering: coverings.get(surface) ?? null,
  }));
  return [...walls, ...panels];
}

/** What covers a surface at a place on it: the panel that hangs there, else the wall's own covering. */
export function coveringAt(
  shape: RoomShape,
  { surfaces, fixtures }: Pick<Space, 'surfaces' | 'fixtures'>,
  surface: string,
  at: Point,
): Covering | null {
  for (const fixture of fixtures) {
    if (fixture.kind !== 'panel' || fixture.wall !== surface || fixture.covering === null) continue;
    const { along_m, z_m } = fixture;
    if (along_m === null || z_m === null) continue;
    const place_m = alongWall_m(shape, surface, at);
    const isThere = along_m[0] <= place_m && place_m <= along_m[1];
    if (isThere && z_m[0] <= at.z_m && at.z_m <= z_m[1]) return fixture.covering;
  }
  return surfaces.find(({ name }) => name === surface)?.covering ?? null;
}

/** As the format counts: along x on front and back of a box, along y on its sides, from the first corner on a plan's wall. */
function alongWall_m({ box, plan, wallNames }: RoomShape, wall: string, at: Point): number {
  if (box !== null) return wall === 'left' || wall === 'right' ? at.y_m : at.x_m;
  const corner = plan[wallNames.indexOf(wall)];
  return corner === undefined ? Number.NaN : planDistance_m(corner, at);
}

function coveredBy(panels: readonly CoveredArea[], wall: string): number {
  return panels
    .filter(({ surface }) => surface === wall)
    .reduce((sum, panel) => sum + panel.area_m2, 0);
}
