// What stands in the room, as drawings need it: seats, loudspeakers and subwoofers with place, size and facing.

import type { Setup } from '../../../core/setup.ts';
import type { Path } from '../../../schema/model/path.ts';
import type { Point } from '../../../schema/model/quantities.ts';
import type { Room, Speaker } from '../../../schema/model/room.ts';

export interface Thing {
  readonly id: string;
  readonly kind: 'seat' | 'speaker' | 'subwoofer';
  readonly at: Point;
  readonly path: Path;
  readonly isReference: boolean;
  /** Built into a wall: the cabinet is not in the room. */
  readonly isFlush: boolean;
  /** Of the cabinet; what stands in for it where the gear tells nothing is drawn dashed. */
  readonly size: {
    readonly width_m: number;
    readonly depth_m: number;
    readonly height_m: number;
    readonly known: boolean;
  };
  /** Unit vector in plan, the way a loudspeaker looks. */
  readonly facing: readonly [number, number];
}

/** About a mid-size two-way box, for gear without a size. */
const STAND_IN = { width_m: 0.26, depth_m: 0.3, height_m: 0.4, known: false };

/** Everything with a place, seats last so that they lie on top. */
export function thingsOf(setup: Setup): readonly Thing[] {
  const { room } = setup;
  const speakers = room.speakers.flatMap((speaker) => standing(room, speaker, 'speaker'));
  const subs = room.subwoofers.flatMap((sub) => standing(room, sub, 'subwoofer'));
  const seats = room.seats.flatMap(({ id, at, isReference }): readonly Thing[] =>
    at === null
      ? []
      : [
          {
            id,
            kind: 'seat',
            at,
            path: ['seats', id, 'at'],
            isReference,
            isFlush: false,
            size: { width_m: 0.18, depth_m: 0.22, height_m: 0.24, known: true },
            facing: [0, -1],
          },
        ],
  );
  return [...subs, ...speakers, ...seats];
}

function standing(room: Room, speaker: Speaker, kind: 'speaker' | 'subwoofer'): readonly Thing[] {
  if (speaker.at === null) return [];
  const size = speaker.gear?.size;
  return [
    {
      id: speaker.id,
      kind,
      at: speaker.at,
      path: [kind === 'speaker' ? 'speakers' : 'subwoofers', speaker.id, 'at'],
      isReference: false,
      isFlush: speaker.flushIn !== null,
      size: size === null || size === undefined ? STAND_IN : { ...size, known: true },
      facing: facingOf(room, speaker, speaker.at),
    },
  ];
}

/** Towards the seat it is aimed at, else towards the reference seat; subwoofers and flush ones look into the room. */
function facingOf(room: Room, speaker: Speaker, at: Point): readonly [number, number] {
  const into = FROM_WALL.get(speaker.flushIn ?? '');
  if (into !== undefined) return into;
  const seat =
    room.seats.find(({ id }) => id === speaker.aim) ??
    room.seats.find(({ isReference }) => isReference);
  if (seat === undefined || seat.at === null) return [0, 1];
  const across_m = seat.at.x_m - at.x_m;
  const down_m = seat.at.y_m - at.y_m;
  const distance_m = Math.hypot(across_m, down_m);
  return distance_m < 0.01 ? [0, 1] : [across_m / distance_m, down_m / distance_m];
}

const FROM_WALL: ReadonlyMap<string, readonly [number, number]> = new Map([
  ['front', [0, 1]],
  ['back', [0, -1]],
  ['left', [1, 0]],
  ['right', [-1, 0]],
]);
