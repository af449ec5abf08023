// Hypotheses about the room: places mistyped or moved, a side of the room off, air warmer or colder than written.

import type { Path } from '../../schema/model/path.ts';
import type { Room } from '../../schema/model/room.ts';
import type { Fix } from '../finding.ts';
import { placedSeats, placedSources } from '../parts/referenceSeat.ts';
import { lengthText, sourcePath } from '../rules/places.ts';
import type { Show } from '../show.ts';
import { evenly, type Hypothesis, type Parameter } from './causeHypothesis.ts';
import type { SessionPlan } from './plan.ts';
import { temperatureRatio } from './temperature.ts';

/** A slip of the pen or of the tape goes so far; farther ones are seen on the plan. Common practice, no source. */
const PLACE_M = 1;
const SEAT_M = 0.5;
const SIDE_M = 0.4;
/** Air of rooms in use: common practice, no source. */
const AIR_K = 12;
const AXES = ['x', 'y'] as const;
const SIDES = ['width', 'depth', 'height'] as const;
/** Coarse steps of a search over the floor. */
const FLOOR_M = 0.7;

export function placeHypotheses(
  { room, session, air, takes, isBox }: SessionPlan,
  heard: ReadonlySet<string>,
): readonly Hypothesis[] {
  const sources = placedSources(room).filter(({ id }) => heard.has(id));
  const seats = new Set(takes.map(({ take }) => take.seat));
  return [
    ...sources
      .filter(({ isSubwoofer }) => !isSubwoofer)
      .flatMap(({ id, at }) =>
        AXES.map((axis): Hypothesis => {
          const where = (by_m: number) => ({ ...at, [`${axis}_m`]: at[`${axis}_m`] + by_m });
          return {
            kind: 'distance',
            key: `distance ${id}`,
            path: [...sourcePath(room, id), 'at', axis],
            parameters: [along(room, axis, at[`${axis}_m`], PLACE_M)],
            variant: ([by_m = 0]) => ({ places: new Map([[id, where(by_m)]]) }),
            sources: [id],
            name: `${id} standing elsewhere`,
            message: ([by_m = 0], show) =>
              `${id} seems to stand ${farther(axis, by_m, show)} than the file says`,
            fix: ([by_m = 0]) =>
              writeFix(room, [...sourcePath(room, id), 'at', axis], at[`${axis}_m`] + by_m),
          };
        }),
      ),
    ...placedSeats(room)
      .filter(({ id }) => seats.has(id))
      .flatMap(({ id, at }) =>
        AXES.map(
          (axis, index): Hypothesis => ({
            kind: 'distance',
            key: `distance ${id}`,
            path: ['seats', id, 'at', axis],
            parameters: [along(room, axis, at[`${axis}_m`], SEAT_M)],
            variant: ([by_m = 0]) => ({
              seatOffset_m: { seat: id, by_m: index === 0 ? [by_m, 0, 0] : [0, by_m, 0] },
            }),
            sources: null,
            name: `the seat ${id} elsewhere`,
            message: ([by_m = 0], show) =>
              `The seat ${id} seems to lie ${farther(axis, by_m, show)} than the file says`,
            fix: ([by_m = 0]) => writeFix(room, ['seats', id, 'at', axis], at[`${axis}_m`] + by_m),
          }),
        ),
      ),
    ...sources.filter(({ isSubwoofer }) => isSubwoofer).map(({ id, at }) => moved(room, id, at)),
    ...(isBox ? sides(room) : []),
    airHypothesis(session, air, room),
  ];
}

function along(room: Room, axis: 'x' | 'y', now_m: number, most_m: number): Parameter {
  const { shape } = room.space;
  const side_m = shape?.kind === 'box' ? (axis === 'x' ? shape.width_m : shape.depth_m) : null;
  const from = Math.max(-most_m, -now_m + 0.05);
  const to = side_m === null ? most_m : Math.min(most_m, side_m - now_m - 0.05);
  return { from, to, scan: evenly(from, to, 13) };
}

function farther(axis: 'x' | 'y', by_m: number, show: Show): string {
  const way =
    axis === 'x' ? (by_m < 0 ? 'to the left' : 'to the right') : by_m < 0 ? 'forward' : 'back';
  return `${show.smallLength(Math.abs(by_m))} farther ${way}`;
}

function writeFix(room: Room, path: Path, value_m: number): Fix {
  const value = lengthText(value_m, room.habits);
  return { title: `Write ${value}`, edits: [{ do: 'set', path, value }], safe: false };
}

/** A subwoofer anywhere on the floor. */
function moved(
  room: Room,
  id: string,
  at: { readonly x_m: number; readonly y_m: number; readonly z_m: number },
): Hypothesis {
  const { shape } = room.space;
  const [width_m, depth_m] =
    shape?.kind === 'box' ? [shape.width_m, shape.depth_m] : [at.x_m + 2, at.y_m + 2];
  const over = (to: number): Parameter => {
    const edge = Math.min(0.2, to / 4);
    return {
      from: edge,
      to: to - edge,
      scan: evenly(edge, to - edge, Math.max(3, Math.round(to / FLOOR_M) + 1)),
    };
  };
  const where = ([x_m = at.x_m, y_m = at.y_m]: readonly number[]) => ({ x_m, y_m, z_m: at.z_m });
  const path = [...sourcePath(room, id), 'at'];
  return {
    kind: 'moved',
    key: `moved ${id}`,
    path,
    parameters: [over(width_m), over(depth_m)],
    variant: (values) => ({ places: new Map([[id, where(values)]]) }),
    sources: [id],
    images: ([x_m = at.x_m, y_m = at.y_m]) => [
      [width_m - x_m, y_m],
      [x_m, depth_m - y_m],
    ],
    name: `${id} standing elsewhere`,
    message: (values, show) => {
      const to = where(values);
      return `${id} seems to stand at x ${show.length(to.x_m)}, y ${show.length(to.y_m)}: ${show.length(Math.hypot(to.x_m - at.x_m, to.y_m - at.y_m))} from where the file has it`;
    },
    fix: (values) => {
      const to = where(values);
      return {
        title: `Write where ${id} stands`,
        edits: AXES.map((axis) => ({
          do: 'set' as const,
          path: [...path, axis],
          value: lengthText(to[`${axis}_m`], room.habits),
        })),
        safe: false,
      };
    },
  };
}

function sides(room: Room): readonly Hypothesis[] {
  const { shape } = room.space;
  if (shape?.kind !== 'box') return [];
  return SIDES.map((side, index) => {
    const path = ['space', 'size', side];
    return {
      kind: 'dimension',
      key: `dimension ${side}`,
      path,
      parameters: [{ from: -SIDE_M, to: SIDE_M, scan: evenly(-0.75 * SIDE_M, 0.75 * SIDE_M, 4) }],
      variant: ([by_m = 0]) => ({
        size_m: [index === 0 ? by_m : 0, index === 1 ? by_m : 0, index === 2 ? by_m : 0],
      }),
      sources: null,
      isDear: true,
      name: `another ${side} of the room`,
      message: ([by_m = 0], show) =>
        `The room’s ${side} seems to be ${show.smallLength(Math.abs(by_m))} ${by_m < 0 ? 'less' : 'more'} than the file says`,
      fix: ([by_m = 0]) => writeFix(room, path, shape[`${side}_m`] + by_m),
    };
  });
}

function airHypothesis(
  { temperature_k, path: session }: SessionPlan['session'],
  { temperature_k: now_k }: SessionPlan['air'],
  room: Room,
): Hypothesis {
  const path =
    temperature_k === null ? ['space', 'air', 'temperature'] : [...session, 'air', 'temperature'];
  return {
    kind: 'air',
    key: 'air',
    path,
    parameters: [{ from: -AIR_K, to: AIR_K, scan: evenly(-0.75 * AIR_K, 0.75 * AIR_K, 4) }],
    variant: ([by_k = 0]) => ({ speed_ratio: temperatureRatio(now_k, by_k) }),
    sources: null,
    isDear: true,
    name: 'air of another temperature',
    message: ([by_k = 0], show) =>
      `The air seems to have been ${by_k < 0 ? 'colder' : 'warmer'} than written: ${show.temperature(now_k + by_k)} rather than ${show.temperature(now_k)}`,
    fix: ([by_k = 0], show) =>
      room.air.speedOfSound_m_s === null
        ? {
            title: `Write ${show.temperature(now_k + by_k)}`,
            edits: [{ do: 'set', path, value: show.temperature(now_k + by_k) }],
            safe: false,
          }
        : null,
  };
}
