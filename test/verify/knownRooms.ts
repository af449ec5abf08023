// Rooms whose low end others have worked out: a box, an L, a trapezoid, a sloped ceiling, each with what its file would say and its takes.
//
// Sources: a box by a separable exact solution and an L-shaped plan by plane finite elements (test/field/data, test/elements/data), a
// trapezoid and a sloped ceiling by hexahedra in three dimensions (test/verify/data/forcedRooms.py).

import { readFileSync } from 'node:fs';
import { type MadeRoom, type Truth, truthOf } from './bassTakes.ts';

/** As the stored solutions have it. */
export interface Forced {
  readonly inputs: {
    readonly c_m_s: number;
    readonly rho_kg_m3: number;
    readonly f_hz: readonly number[];
    readonly source_m: readonly number[];
    readonly receivers_m: readonly (readonly number[])[];
  };
  readonly expected: { readonly p_exact?: readonly Pressure[]; readonly p?: readonly Pressure[] };
}

interface Pressure {
  readonly re: readonly number[];
  readonly im: readonly number[];
}

/** A room of which all is known, and what others make of it. */
export interface Known {
  readonly room: MadeRoom;
  readonly beta: number;
  readonly truths: readonly Truth[];
}

const SEATS = ['mix', 'couch', 'door'] as const;
/** What the files leave open of width, depth and height. */
export const OPEN_M: readonly number[] = [0.03, 0.15, 0.02];

function known(
  file: string,
  key: keyof Forced['expected'],
  plan_m: MadeRoom['plan_m'],
  height_m: number,
): Known {
  const { inputs, expected } = read(file) as Forced;
  const truths = (expected[key] ?? []).map((pressure, i) =>
    truthOf('sub', SEATS[i] ?? '', inputs.f_hz, pressure, inputs.rho_kg_m3),
  );
  const room = {
    plan_m,
    isBox: key === 'p_exact',
    heights_m: [height_m, height_m] as const,
    open_m: OPEN_M,
    decay_s: null,
    absorption: 0.2,
    speedOfSound_m_s: inputs.c_m_s,
    seats: Object.fromEntries(inputs.receivers_m.map((at, i) => [SEATS[i] ?? '', at])),
    sources: { sub: inputs.source_m },
  };
  return { room, beta: 0.05, truths };
}

export const BOX: Known = known(
  'field/data/forced_rect_uniform_0p05',
  'p_exact',
  [
    [0, 0],
    [6.2, 0],
    [6.2, 4.7],
    [0, 4.7],
  ],
  2.9,
);
export const L_SHAPE: Known = known(
  'elements/data/forced_lshape_uniform_0p05',
  'p',
  [
    [0, 0],
    [6.4, 0],
    [6.4, 3.1],
    [4.1, 3.1],
    [4.1, 5.2],
    [0, 5.2],
  ],
  2.75,
);

export function exactBox(name: string): Forced {
  return read(`field/data/${name}`) as Forced;
}

function read(file: string): unknown {
  return JSON.parse(readFileSync(new URL(`../${file}.json`, import.meta.url), 'utf8'));
}

interface ForcedRooms {
  readonly inputs: {
    readonly c_m_s: number;
    readonly beta: number;
    readonly sources_m: Readonly<Record<string, readonly number[]>>;
    readonly seats_m: Readonly<Record<string, readonly number[]>>;
  };
  readonly expected: Readonly<
    Record<
      string,
      {
        readonly plan_m: readonly (readonly number[])[];
        readonly heights_m: readonly number[];
        readonly frequency_hz: readonly number[];
        readonly level_db: Readonly<Record<string, Readonly<Record<string, readonly number[]>>>>;
      }
    >
  >;
}

/** @param name `trapezoid` or `sloped` */
export function hexahedra(name: string): Known {
  const { inputs, expected } = read('verify/data/forcedRooms') as ForcedRooms;
  const found = expected[name];
  if (found === undefined) throw new Error(`no ${name}`);
  const { plan_m, heights_m, frequency_hz, level_db } = found;
  const truths = Object.entries(level_db).flatMap(([source, seats]) =>
    Object.entries(seats).map(([seat, level]) => ({ source, seat, frequency_hz, level_db: level })),
  );
  const room = {
    plan_m,
    isBox: false,
    heights_m: [heights_m[0] ?? 0, heights_m[2] ?? 0] as const,
    open_m: OPEN_M,
    decay_s: null,
    absorption: 0.2,
    speedOfSound_m_s: inputs.c_m_s,
    seats: inputs.seats_m,
    sources: inputs.sources_m,
  };
  return { room, beta: inputs.beta, truths };
}
