// Moving what is not a subwoofer: the main pair, kept symmetric about the middle of the room, and the reference seat along that middle.
//
// Both are judged as placements are: flatness at the reference seat, of left and right through all that they drive, and the spread
// of the seats. Settings stay as they are; delays follow by themselves once things stand.

import type { ComplexResponse } from '../acoustics/complex.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { type FieldContext, fieldContext, noFieldNote } from '../field/context.ts';
import { type Drive, drivesOf, waysOf } from '../field/drives.ts';
import { areApart, isInside, prepareRoomField } from '../field/roomField.ts';
import { addPressure, channelGroups, levels_dbspl, silence } from '../field/sums.ts';
import type { Setup } from '../setup.ts';
import { trace } from '../signal/traced.ts';
import { gridLines_m, isBase, STEP_M } from './pairGeometry.ts';
import { levelTerms } from './placementCost.ts';
import { targetOn_db } from './targetCurve.ts';
import { allAtOnce, type InSlices } from './transferMap.ts';

/** One way of standing: places by id, and what it comes to. */
export interface MovedCandidate {
  readonly places: Readonly<Record<string, Point3>>;
  readonly cost_db: number;
  readonly flatness_db: number;
  readonly spread_db: number;
}

export interface MovedResult {
  /** As it is; null where that has no response. */
  readonly current: MovedCandidate | null;
  /** Best first, at least `apart_m` from each other. */
  readonly candidates: readonly MovedCandidate[];
}

const FROM_HZ = 20;
/** Above, the early reflections decide, not the place in the room's modes. */
const TO_HZ = 150;
const POINTS_PER_OCTAVE = 12;
const APART_M = 0.3;
const MOST = 5;
/** Cabinets, and heads, keep so far from walls. Common practice, no source. */
const FROM_WALL_M = { speaker: 0.4, seat: 0.7 } as const;

type Of = Pick<Setup, 'room' | 'air' | 'referenceSeat'>;

interface Scene {
  readonly context: FieldContext;
  readonly drives: readonly Drive[];
  readonly middle_m: number;
  readonly reference: FieldContext['seats'][number];
}

/** The reference seat along the middle of the width. null where the room has no size, seat or pair. */
export function searchSeat(setup: Of): MovedResult | null {
  return allAtOnce(searchSeatInSlices(setup));
}

/** The main pair, symmetric about the middle of the width. null where the room has no size, seat or pair. */
export function searchMains(setup: Of): MovedResult | null {
  return allAtOnce(searchMainsInSlices(setup));
}

export function* searchSeatInSlices(setup: Of): InSlices<MovedResult | null> {
  const scene = sceneOf(setup);
  if (scene === null) return null;
  const { context, reference, middle_m, drives } = scene;
  const ys = gridLines_m(
    context.fieldRoom.shape.plan.map(({ y_m }) => y_m),
    FROM_WALL_M.seat,
  );
  const sources = [...new Map(drives.map(({ source }) => [source.id, source])).values()];
  const field = prepareRoomField(context.fieldRoom, context.frequency_hz);
  // By reciprocity the sources listen, and the seat is moved.
  const listening = field.listenAt(sources.map(({ at }) => at));
  const others = context.seats.filter(({ id }) => id !== reference.id);
  const heardAt = (at: Point3) => {
    const all = listening(at);
    return (id: string) => all[sources.findIndex((source) => source.id === id)];
  };
  const fixed = others.map(({ at }) => heardAt(at));
  const judged = (at: Point3): MovedCandidate => ({
    places: { [reference.id]: at },
    ...judgement(setup, scene, (seatIndex, id) =>
      (seatIndex === 0 ? heardAtOnce : fixed[seatIndex - 1])?.(id, at),
    ),
  });
  let last: { readonly at: Point3; readonly heard: ReturnType<typeof heardAt> } | null = null;
  function heardAtOnce(id: string, at: Point3): ComplexResponse | undefined {
    if (last?.at !== at) last = { at, heard: heardAt(at) };
    return last.heard(id);
  }
  const places = ys
    .map((y_m) => ({ x_m: middle_m, y_m, z_m: reference.at.z_m }))
    .filter(
      (at) =>
        isInside(context.fieldRoom.shape, at) &&
        sources.every((source) => areApart(source.at, at)) &&
        seesPair(setup, at),
    );
  return ranked(judged(reference.at), yield* each(places, judged));
}

export function* searchMainsInSlices(setup: Of): InSlices<MovedResult | null> {
  const scene = sceneOf(setup);
  const pair = pairOf(setup);
  if (scene === null || pair === null) return null;
  const { context, middle_m, drives, reference } = scene;
  const { plan } = context.fieldRoom.shape;
  const ears = [reference, ...context.seats.filter(({ id }) => id !== reference.id)];
  const field = prepareRoomField(context.fieldRoom, context.frequency_hz);
  const listening = field.listenAt(ears.map(({ at }) => at));
  const fixed = new Map(drives.map(({ source }) => [source.id, listening(source.at)]));
  const judged = (left: Point3, right: Point3): MovedCandidate => {
    const moved = new Map(fixed);
    moved.set(pair.left.id, listening(left));
    moved.set(pair.right.id, listening(right));
    return {
      places: { [pair.left.id]: left, [pair.right.id]: right },
      ...judgement(setup, scene, (seatIndex, id) => moved.get(id)?.[seatIndex]),
    };
  };
  const { left, right } = pair;
  const ys = gridLines_m(
    plan.map(({ y_m }) => y_m),
    FROM_WALL_M.speaker,
  );
  const xs = gridLines_m(
    plan.map(({ x_m }) => x_m),
    FROM_WALL_M.speaker,
  );
  const places = ys.flatMap((y_m) =>
    xs
      .filter((x_m) => x_m < middle_m - STEP_M / 2 && y_m < reference.at.y_m)
      .map(
        (x_m) =>
          [
            { x_m, y_m, z_m: left.at.z_m },
            { x_m: 2 * middle_m - x_m, y_m, z_m: right.at.z_m },
          ] as const,
      )
      .filter(
        ([one, other]) =>
          isInside(context.fieldRoom.shape, one) &&
          isInside(context.fieldRoom.shape, other) &&
          ears.every(({ at }) => areApart(at, one) && areApart(at, other)) &&
          isBase(reference.at, one, other),
      ),
  );
  return ranked(
    judged(left.at, right.at),
    yield* each(places, ([one, other]) => judged(one, other)),
  );
}

function* each<Place>(
  places: readonly Place[],
  judged: (place: Place) => MovedCandidate,
): InSlices<readonly MovedCandidate[]> {
  const all: MovedCandidate[] = [];
  for (const [index, place] of places.entries()) {
    all.push(judged(place));
    yield (index + 1) / places.length;
  }
  return all;
}

function sceneOf(setup: Of): Scene | null {
  const context = fieldContext(setup, [...logGrid_hz(FROM_HZ, TO_HZ, POINTS_PER_OCTAVE)]);
  const pair = pairOf(setup);
  if (context === null || pair === null) return null;
  const reference = context.seats.find(({ id }) => id === setup.referenceSeat);
  if (reference === undefined) return null;
  const { room } = setup;
  const { drives } = drivesOf(room, waysOf(room, trace(room).paths, context.frequency_hz));
  const xs = context.fieldRoom.shape.plan.map(({ x_m }) => x_m);
  return {
    context,
    drives: drives.filter(({ source }) => noFieldNote(context, source) === null),
    middle_m: (Math.min(...xs) + Math.max(...xs)) / 2,
    reference,
  };
}

function pairOf({ room }: Of) {
  const found = (channel: string) => {
    const speaker = room.speakers.find((one) => one.channel === channel);
    return speaker && speaker.at !== null ? { ...speaker, at: speaker.at } : null;
  };
  const [left, right] = [found('L'), found('R')];
  return left && right ? { left, right } : null;
}

/** Mean of left and right: flatness at the first seat, spread of all. */
function judgement(
  { room }: Of,
  { context, drives }: Scene,
  transferOf: (seatIndex: number, source: string) => ComplexResponse | undefined,
): Omit<MovedCandidate, 'places'> {
  const { frequency_hz, fieldRoom, seats } = context;
  const target_db = targetOn_db(room.targets.curve, frequency_hz);
  const groups = channelGroups(drives).filter(({ channel }) => channel === 'L' || channel === 'R');
  const terms = groups.map((group) => {
    const levels = seats.flatMap((_, seatIndex) => {
      const sum = silence(frequency_hz.length);
      for (const drive of group.drives) {
        const transfer = transferOf(seatIndex, drive.source.id);
        if (transfer)
          addPressure(sum, transfer, drive, frequency_hz, fieldRoom.medium.density_kg_m3);
      }
      return [...levels_dbspl(sum)].map((level, i) => level - (target_db?.[i] ?? 0));
    });
    return levelTerms(Float64Array.from(levels), seats.length, frequency_hz.length);
  });
  const mean = (of: (one: (typeof terms)[number]) => number) =>
    terms.reduce((sum, one) => sum + of(one), 0) / Math.max(1, terms.length);
  const flatness_db = mean((one) => one.flatness_db[0] ?? 0);
  const spread_db = mean((one) => one.spread_db);
  return { cost_db: flatness_db + spread_db, flatness_db, spread_db };
}

function seesPair(setup: Of, at: Point3): boolean {
  const pair = pairOf(setup);
  return pair !== null && pair.left.at.y_m < at.y_m && isBase(at, pair.left.at, pair.right.at);
}

function ranked(current: MovedCandidate, all: readonly MovedCandidate[]): MovedResult {
  const chosen: MovedCandidate[] = [];
  for (const one of all.toSorted((a, b) => a.cost_db - b.cost_db)) {
    if (chosen.length === MOST) break;
    const isNew = chosen.every((other) =>
      Object.entries(one.places).some(([id, at]) => {
        const there = other.places[id];
        return there === undefined || APART_M <= distance_m(at, there) + 1e-9;
      }),
    );
    if (isNew) chosen.push(one);
  }
  return { current, candidates: chosen };
}
