// Hand-made rooms in SI for tests: an empty room, and small builders for what a test is about. All of it is invented.

import type { Gear } from '../../schema/model/gear.ts';
import type { Point } from '../../schema/model/quantities.ts';
import type {
  BoxShape,
  PlanShape,
  Policy,
  Room,
  Seat,
  Space,
  Speaker,
} from '../../schema/model/room.ts';

const NO_POLICY: Policy = {
  id: null,
  layouts: [],
  referenceLevel: null,
  recheck_months: null,
  tolerances: {},
  severity: {},
};

export const EMPTY_SPACE: Space = {
  shape: null,
  surfaces: [],
  decayTime_s: null,
  backgroundNoise: null,
  fixtures: [],
};

/** A room of which nothing is recorded. */
export const EMPTY_ROOM: Room = {
  name: null,
  space: EMPTY_SPACE,
  air: {
    temperature_k: null,
    relativeHumidity: null,
    pressure_pa: null,
    speedOfSound_m_s: null,
  },
  seats: [],
  speakers: [],
  subwoofers: [],
  devices: [],
  wiring: [],
  circuits: [],
  settings: [],
  sets: [],
  targets: { layout: null, referenceLevel: null, monitorControl: null, curve: null },
  policy: NO_POLICY,
  accepted: [],
  signedOff: null,
  gaps: [],
  plusMinus: {},
  notes: [],
  habits: { length: 'metre', temperature: 'celsius', mass: 'kilogram' },
};

export function roomWith(parts: Partial<Room>): Room {
  return { ...EMPTY_ROOM, ...parts };
}

export function spaceWith(parts: Partial<Space>): Space {
  return { ...EMPTY_SPACE, ...parts };
}

export function policyWith(parts: Partial<Policy>): Policy {
  return { ...NO_POLICY, ...parts };
}

export function box(width_m: number, depth_m: number, height_m: number): BoxShape {
  return { kind: 'box', width_m, depth_m, height_m };
}

/** A plan of named corners under a level ceiling; null height leaves it out. */
export function plan(
  corners: Readonly<Record<string, readonly [number, number]>>,
  height_m: number | null,
): PlanShape {
  return {
    kind: 'plan',
    walls: Object.entries(corners).map(([name, [x_m, y_m]]) => ({ name, x_m, y_m })),
    ceiling: height_m === null ? null : { height_m, slopeX: 0, slopeY: 0 },
  };
}

export function point(x_m: number, y_m: number, z_m: number): Point {
  return { x_m, y_m, z_m };
}

export function seat(id: string, at: Point | null, more: Partial<Seat> = {}): Seat {
  return { id, at, isReference: true, role: null, ...more };
}

export function speaker(
  id: string,
  channel: string | null,
  at: Point | null,
  more: Partial<Speaker> = {},
): Speaker {
  return {
    id,
    channel,
    at,
    gear: null,
    gearId: null,
    item: null,
    aim: null,
    flushIn: null,
    ...more,
  };
}

export function subwoofer(id: string, at: Point | null, more: Partial<Speaker> = {}): Speaker {
  return speaker(id, null, at, more);
}

/** A model of which only the kind is known. */
export function gear(id: string, kind: Gear['kind'], more: Partial<Gear> = {}): Gear {
  return {
    id,
    kind,
    maker: null,
    size: null,
    mass_kg: null,
    lowEnd: null,
    highEnd: null,
    maxLevel: null,
    fullLevelInput_v: null,
    fullLevelOutput_v: null,
    gain_db: null,
    power: null,
    latency_s: [],
    sampleRate_hz: null,
    inputs: [],
    outputs: [],
    buses: [],
    paths: [],
    controls: [],
    ...more,
  };
}

/** A stereo triangle of BS.775: base 2.4 m, 30° to each side, all at 1.2 m, in the middle of a room of 5 × 6 m. */
export const TRIANGLE = {
  seat: seat('mix', point(2.5, 3.2785, 1.2)),
  left: speaker('left', 'L', point(1.3, 1.2, 1.2)),
  right: speaker('right', 'R', point(3.7, 1.2, 1.2)),
} as const;

/** A sound stereo room round that triangle, without a subwoofer. */
export function stereoRoom(parts: Partial<Room> = {}): Room {
  return roomWith({
    space: spaceWith({ shape: box(5, 6.6, 2.9) }),
    seats: [TRIANGLE.seat],
    speakers: [TRIANGLE.left, TRIANGLE.right],
    targets: { ...EMPTY_ROOM.targets, layout: '0+2+0' },
    ...parts,
  });
}
