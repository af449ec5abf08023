// Part of Setup: what the room's surfaces do to each source: distances, first reflections at the reference seat, bass gain.

import type { Point } from '../../schema/model/quantities.ts';
import type { Covering, Room, Space } from '../../schema/model/room.ts';
import { boundaryPower_db } from '../acoustics/boundaryPower.ts';
import type { BoxSize } from '../acoustics/boxModes.ts';
import { below_m, ceilingImage } from '../acoustics/ceilingImage.ts';
import { type ImagePath, levelImage, wallImages } from '../acoustics/imageSources.ts';
import { contains, isFreeWay, wallDistances_m } from '../acoustics/polygon.ts';
import { comb, notch_hz, quarterWave_hz } from '../acoustics/reflection.ts';
import type { AirFigures, BoundaryFigures, Note } from '../setup.ts';
import { beamOf, type Spheres } from './beam.ts';
import { reflection_ratio } from './coverings.ts';
import { memoEach, memoLast, memoPart } from './memo.ts';
import { type PlacedSource, placedSources, referenceSeat, type Sounding } from './referenceSeat.ts';
import { type RoomShape, roomShape } from './roomShape.ts';
import { coveringAt } from './surfaces.ts';

export interface BoundariesPart {
  readonly boundaries: readonly BoundaryFigures[];
  readonly notes: readonly Note[];
}

/** Nearer than this a source is part of the surface: it makes no notch of its own. */
const BUILT_IN_M = 0.005;
/** Middle of a subwoofer's range, where its gain is told: common practice, no source. */
const GAIN_AT_HZ = 40;

/** What of a room this part depends on. */
export type BoundariesOf = Sounding & Pick<Room, 'space' | 'seats'>;

/** A worker: one entry for each source that has a place, in the file's order; of one that did not move it knows already. */
export function createBoundariesPart(): (room: BoundariesOf, air: AirFigures) => BoundariesPart {
  const shapeOf = memoPart(['space'], ({ space }: Pick<Room, 'space'>) => roomShape(space));
  const spheresAt = memoLast((_speedOfSound_m_s: number): Spheres => new Map());
  const each = memoEach(boundariesOfSource);
  return (room, { speedOfSound_m_s }) => {
    const shape = shapeOf(room);
    if (shape === null) return { boundaries: [], notes: [] };
    const ear = referenceSeat(room)?.at ?? null;
    const spheres = spheresAt(speedOfSound_m_s);
    const sources = placedSources(room);
    const boundaries = each(sources, shape, room.space, ear, speedOfSound_m_s, spheres);
    const notes =
      ear === null && 0 < boundaries.length
        ? [{ path: ['seats'], message: 'No seat with a place: no reflections, no angles' }]
        : [];
    return { boundaries, notes };
  };
}

/** The same once. */
export function boundariesPart(room: BoundariesOf, air: AirFigures): BoundariesPart {
  return createBoundariesPart()(room, air);
}

function boundariesOfSource(
  source: PlacedSource,
  shape: RoomShape,
  space: Pick<Space, 'surfaces' | 'fixtures'>,
  ear: Point | null,
  speedOfSound_m_s: number,
  spheres: Spheres,
): BoundaryFigures {
  return {
    source: source.id,
    surfaces: surfaces(shape, source, speedOfSound_m_s),
    reflections:
      ear === null ? [] : reflections(shape, space, source, ear, speedOfSound_m_s, spheres),
    powerGainAt40Hz_db:
      shape.box !== null && source.isSubwoofer && isInside(shape.box, source.at)
        ? powerGain_db(shape.box, source.at, speedOfSound_m_s)
        : null,
  };
}

/** Distances to all surfaces, nearest first, without the one that it is built into. */
function surfaces(
  { plan, wallNames, ceiling }: RoomShape,
  { at, flushIn }: PlacedSource,
  speedOfSound_m_s: number,
): BoundaryFigures['surfaces'] {
  const distances = wallDistances_m(plan, at).map((distance_m, index) => ({
    surface: wallNames[index] ?? '',
    distance_m,
  }));
  distances.push({ surface: 'floor', distance_m: at.z_m });
  if (ceiling !== null) {
    distances.push({ surface: 'ceiling', distance_m: below_m(ceiling, at) });
  }
  return distances
    .filter(({ surface, distance_m }) => surface !== flushIn && BUILT_IN_M < distance_m)
    .map((one) => ({ ...one, quarterWave_hz: quarterWave_hz(one.distance_m, speedOfSound_m_s) }))
    .sort((a, b) => a.distance_m - b.distance_m);
}

function reflections(
  shape: RoomShape,
  space: Pick<Space, 'surfaces' | 'fixtures'>,
  source: PlacedSource,
  ear: Point,
  speedOfSound_m_s: number,
  spheres: Spheres,
): BoundaryFigures['reflections'] {
  const { at, flushIn } = source;
  const beams = beamsOf(source, ear, speedOfSound_m_s, spheres);
  const { plan, wallNames, ceiling } = shape;
  const paths: (readonly [surface: string, path: ImagePath | null])[] = wallImages(
    plan,
    at,
    ear,
  ).map((path) => [wallNames[path.wallIndex] ?? '', path] as const);
  // Floor and ceiling lie below and above the direct way: what hides that, hides them.
  const isSeen = isFreeWay(plan, at, ear, null);
  if (isSeen) paths.push(['floor', levelImage(0, at, ear)]);
  if (ceiling !== null && isSeen) {
    const path = ceilingImage(ceiling, at, ear);
    if (path !== null && contains(plan, path.reflectedAt)) paths.push(['ceiling', path]);
  }
  return paths
    .flatMap(([surface, path]) => {
      if (path === null || surface === flushIn || path.direct_m === 0) return [];
      if (path.difference_m <= BUILT_IN_M) return [];
      const notchAt_hz = notch_hz(path.difference_m, speedOfSound_m_s, 0);
      const covering = coveringAt(shape, space, surface, path.reflectedAt);
      const factor = reflection_ratio(covering, notchAt_hz);
      if (factor === 0) return [];
      const one = comb(path.direct_m, path.reflected_m, speedOfSound_m_s, factor);
      return [
        {
          surface,
          pathDifference_m: one.difference_m,
          behind_s: one.difference_m / speedOfSound_m_s,
          level_db: one.reflection_db,
          notch_hz: one.firstNotch_hz,
          depth_db: one.notch_db,
          ...(beams.length === 0 ? {} : { early_db: early_db(covering, path, beams) }),
        },
      ];
    })
    .sort((a, b) => a.pathDifference_m - b.pathDifference_m);
}

/** Octaves in which early reflections are judged. @source EBU Tech 3276, ITU-R BS.1116: 1 kHz to 8 kHz */
const EARLY_HZ = [1000, 2000, 4000, 8000] as const;

interface Beam {
  readonly frequency_hz: number;
  readonly towards: (to: Point) => number;
  readonly ahead: number;
}

/** None for subwoofers, which play nothing so high. */
function beamsOf(
  source: PlacedSource,
  ear: Point,
  speedOfSound_m_s: number,
  spheres: Spheres,
): readonly Beam[] {
  if (source.isSubwoofer) return [];
  return EARLY_HZ.map((frequency_hz) => {
    const towards = beamOf(source, ear, frequency_hz, speedOfSound_m_s, spheres);
    return { frequency_hz, towards, ahead: towards(ear) };
  });
}

/**
 * Level of a reflection re the direct sound as a mean of power over 1 kHz to 8 kHz: what the surface throws back, the longer way,
 * and how much less the loudspeaker radiates that way than to the seat.
 */
function early_db(
  covering: Covering | null,
  { reflectedAt, direct_m, reflected_m }: ImagePath,
  beams: readonly Beam[],
): number {
  const power = beams.reduce((sum, { frequency_hz, towards, ahead }) => {
    const factor = reflection_ratio(covering, frequency_hz);
    return sum + ((factor * towards(reflectedAt) * direct_m) / (ahead * reflected_m)) ** 2;
  }, 0);
  return Math.max(LEAST_DB, 10 * Math.log10(power / beams.length));
}

/** Less is nothing. */
const LEAST_DB = -60;

/** By the nearest wall of each axis, taken as hard. */
function powerGain_db(size: BoxSize, at: Point, speedOfSound_m_s: number): number {
  const nearest = (['x_m', 'y_m', 'z_m'] as const).map((axis) =>
    Math.min(at[axis], size[axis] - at[axis]),
  );
  return boundaryPower_db(nearest, GAIN_AT_HZ, speedOfSound_m_s);
}

function isInside(size: BoxSize, at: Point): boolean {
  return (['x_m', 'y_m', 'z_m'] as const).every((axis) => 0 <= at[axis] && at[axis] <= size[axis]);
}
