// What of the room and of the places in it is part of the set-up.

import type { Spectrum } from '../../schema/model/quantities.ts';
import type { Covering, Room, Speaker } from '../../schema/model/room.ts';
import { byKey, type Plain } from './canonical.ts';

export function roomPart({ space: { shape, surfaces, fixtures } }: Pick<Room, 'space'>): Plain {
  return {
    box: shape?.kind === 'box' ? shapeOf(shape) : null,
    walls:
      shape?.kind === 'plan' ? shape.walls.map(({ name, x_m, y_m }) => ({ name, x_m, y_m })) : null,
    ceiling: shape?.kind === 'plan' ? shape.ceiling : null,
    surfaces: byKey(
      surfaces,
      ({ name }) => name,
      ({ covering }) => coveringOf(covering),
    ),
    fixtures: byKey(
      fixtures.filter(({ kind }) => kind !== 'keep_clear'),
      ({ id }) => id,
      (fixture) =>
        fixture.kind === 'panel'
          ? {
              wall: fixture.wall,
              along_m: fixture.along_m,
              z_m: fixture.z_m,
              covering: fixture.covering && coveringOf(fixture.covering),
            }
          : { x_m: fixture.x_m, y_m: fixture.y_m, z_m: fixture.z_m },
    ),
  };
}

function shapeOf(shape: {
  readonly width_m: number;
  readonly depth_m: number;
  readonly height_m: number;
}): Plain {
  return { width_m: shape.width_m, depth_m: shape.depth_m, height_m: shape.height_m };
}

function coveringOf(covering: Covering): Plain {
  switch (covering.kind) {
    case 'material':
      return { material: covering.material };
    case 'absorption':
      return { absorption: spectrumOf(covering.absorption) };
    case 'shares':
      return {
        shares: byKey(
          covering.shares,
          ({ material }) => material,
          ({ share }) => share,
        ),
      };
    case 'admittance':
      return { real: covering.real, imaginary: covering.imaginary };
  }
}

function spectrumOf({ frequency_hz, value }: Spectrum): Plain {
  return Object.fromEntries(
    frequency_hz.map((band_hz, index) => [String(Number(band_hz.toPrecision(6))), value[index]]),
  );
}

export function placesPart(room: Pick<Room, 'seats' | 'speakers' | 'subwoofers'>): Plain {
  return {
    seats: byKey(
      room.seats,
      ({ id }) => id,
      ({ at, isReference }) => ({ at: pointOf(at), isReference }),
    ),
    sources: byKey(
      [...room.speakers, ...room.subwoofers],
      ({ id }) => id,
      ({ at, aim, aimAt, flushIn }) => ({
        at: pointOf(at),
        aim,
        aimAt: pointOf(aimAt ?? null),
        flushIn,
      }),
    ),
  };
}

function pointOf(point: Speaker['at']): Plain {
  return point && { x_m: point.x_m, y_m: point.y_m, z_m: point.z_m };
}

/** The names of all materials on surfaces and panels. */
export function materialsIn({ surfaces, fixtures }: Room['space']): readonly string[] {
  const panels = fixtures.flatMap((fixture) =>
    fixture.kind === 'panel' && fixture.covering !== null ? [fixture.covering] : [],
  );
  return [...surfaces.map(({ covering }) => covering), ...panels].flatMap((covering) => {
    if (covering.kind === 'material') return [covering.material];
    return covering.kind === 'shares' ? covering.shares.map(({ material }) => material) : [];
  });
}
