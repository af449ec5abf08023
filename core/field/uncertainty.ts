// What is not known about a room, as draws of slightly different rooms: the envelope of a response is where theirs go.
//
// Every half width below is a default; what the file states with ± goes before it. Draws are uniform between the half widths, from
// a fixed seed, so that the same file gives the same envelope.

import type { Room } from '../../schema/model/room.ts';
import type { UncertaintyFigures } from '../fieldFigures.ts';
import type { AirFigures } from '../setup.ts';

/** Few enough to follow a drag, enough that about nine tenths of all such rooms lie inside (2 of 13 values are the outermost). */
export const DRAWS = 12;

/** A tape or laser measure in a finished room: common practice, no source. */
const DIMENSION_M = 0.01;
/** The acoustic centre of a box in the bass is not marked on it; common practice, no source. */
const SOURCE_M = 0.03;
/** A head moves. */
const SEAT_M = 0.05;
/** A thermometer's reading, against a temperature that nobody wrote down. */
const TEMPERATURE_K = { stated: 1, assumed: 3 } as const;
/** c grows by 0.17 % a kelvin. @source c ∝ √T at 293 K */
export const SPEED_PER_K: number = 1 / (2 * 293.15);
/** Tables below 125 Hz are guesses, laboratories differ by 0.05 to 0.1; measured decay leaves little open. */
const ABSORPTION_RATIO = { measured: 1.2, surfaces: 1.6, assumed: 2 } as const;
/** Studs and boards are springs: modes several per cent off; masonry hardly moves. Common practice, no source. */
const CONSTRUCTION_RATIO = { light: 0.03, unknown: 0.02, heavy: 0.005 } as const;

/** One slightly different room. */
export interface Draw {
  /** Added to width, depth, height, or to both plan axes and the height of another room, m. */
  readonly size_m: readonly [number, number, number];
  /** Multiplies the speed of sound: temperature and construction together. */
  readonly speed_ratio: number;
  /** Multiplies what absorbs. */
  readonly absorption_ratio: number;
  /** Offset of a source or seat, m, by its place in the room's lists. */
  readonly offset_m: (kind: 'source' | 'seat', index: number) => readonly [number, number, number];
}

export interface UncertaintyOf {
  readonly room: Room;
  readonly air: AirFigures;
  readonly from: 'measured' | 'surfaces';
  readonly assumedCount: number;
}

export function uncertaintyOf({
  room,
  air,
  from,
  assumedCount,
}: UncertaintyOf): UncertaintyFigures {
  const stated = (path: string) => room.plusMinus[path];
  return {
    draws: DRAWS,
    dimension_m: Math.max(...SIDES.map((_, axis) => side_m(room, axis, DIMENSION_M))),
    sourcePosition_m: SOURCE_M,
    seatPosition_m: SEAT_M,
    temperature_k:
      stated('space.air.temperature') ??
      (air.assumed ? TEMPERATURE_K.assumed : TEMPERATURE_K.stated),
    absorption_ratio:
      from === 'surfaces'
        ? ABSORPTION_RATIO[0 < assumedCount ? 'assumed' : 'surfaces']
        : (statedDecay_ratio(room) ?? ABSORPTION_RATIO.measured),
    construction_ratio: CONSTRUCTION_RATIO[constructionOf(room)],
  };
}

/** Where a file states ± of the room's extent: across, along, upwards; a plan's corners and a ceiling's heights alike. */
const SIDES: readonly RegExp[] = [
  /^space\.(size\.width|plan\.[^.]+\.x)$/,
  /^space\.(size\.depth|plan\.[^.]+\.y)$/,
  /^space\.(size\.height|height|ceiling\..+)$/,
];

/** Half width of one extent: the largest that the file states for it, else the usual one. */
function side_m({ plusMinus }: Room, axis: number, usual_m: number): number {
  const stated = Object.entries(plusMinus).flatMap(([path, half_m]) =>
    SIDES[axis]?.test(path) ? [half_m] : [],
  );
  return stated.length === 0 ? usual_m : Math.max(...stated);
}

/** Decay times that are stated with ±: what absorbs is known as well as they are. null where none is. */
function statedDecay_ratio({ plusMinus, space }: Room): number | null {
  const stated_s = Object.entries(plusMinus).flatMap(([path, half_s]) =>
    path.startsWith('space.decay_time.') ? [half_s] : [],
  );
  const times_s = space.decayTime_s?.value ?? [];
  if (stated_s.length === 0 || times_s.length === 0) return null;
  const mean_s = times_s.reduce((sum, time_s) => sum + time_s, 0) / times_s.length;
  return 1 + Math.max(...stated_s) / mean_s;
}

const AXES = ['x', 'y', 'z'] as const;

/** The draws, in a fixed order. */
export function drawsOf(room: Room, given: UncertaintyFigures): readonly Draw[] {
  const sides_m = SIDES.map((_, axis) => side_m(room, axis, DIMENSION_M));
  return Array.from({ length: given.draws }, (_, index) => {
    const next = generator(index + 1);
    const size_m = sides_m.map((half_m) => half_m * next()) as [number, number, number];
    const air = given.temperature_k * SPEED_PER_K * next();
    const construction = given.construction_ratio * next();
    const absorption_ratio = given.absorption_ratio ** next();
    return {
      size_m,
      speed_ratio: 1 + air + construction,
      absorption_ratio,
      offset_m: (kind, thing) => offset(room, given, kind, thing, index),
    };
  });
}

function offset(
  room: Room,
  given: UncertaintyFigures,
  kind: 'source' | 'seat',
  thing: number,
  draw: number,
): readonly [number, number, number] {
  const next = generator(7919 * (thing + 1) + 104_729 * (kind === 'seat' ? 1 : 2) + draw + 1);
  const speakers = room.speakers.length;
  const path =
    kind === 'seat'
      ? `seats.${room.seats[thing]?.id}`
      : thing < speakers
        ? `speakers.${room.speakers[thing]?.id}`
        : `subwoofers.${room.subwoofers[thing - speakers]?.id}`;
  const half_m = kind === 'seat' ? given.seatPosition_m : given.sourcePosition_m;
  return AXES.map((axis) => (room.plusMinus[`${path}.at.${axis}`] ?? half_m) * next()) as [
    number,
    number,
    number,
  ];
}

const LIGHT = /gypsum|plasterboard|lath|wood|plywood|glass|glazing/;
const HEAVY = /concrete|brick|masonry|marble/;

/** What most of the surfaces with a known material are built of. */
function constructionOf({ space }: Room): keyof typeof CONSTRUCTION_RATIO {
  const materials = space.surfaces.flatMap(({ covering }) =>
    covering.kind === 'material'
      ? [covering.material]
      : covering.kind === 'shares'
        ? covering.shares.map(({ material }) => material)
        : [],
  );
  const light = materials.filter((material) => LIGHT.test(material)).length;
  const heavy = materials.filter((material) => HEAVY.test(material)).length;
  if (light === 0 && heavy === 0) return 'unknown';
  return heavy < light ? 'light' : 'heavy';
}

/**
 * Uniform numbers from −1 to 1, from a seed.
 * @source mulberry32, public domain, T. Ettinger
 */
function generator(seed: number): () => number {
  let state = Math.imul(seed, 0x9e3779b1);
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return (((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32) * 2 - 1;
  };
}
