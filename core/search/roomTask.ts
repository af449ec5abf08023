// From a room as its file stands to the task of a search: its subs, their own controls, the mains through their filters, every seat.

import type { Room } from '../../schema/model/room.ts';
import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import type { Point3 } from '../acoustics/point.ts';
import { type FieldContext, fieldContext } from '../field/context.ts';
import { isInside } from '../field/roomField.ts';
import type { Note, Setup } from '../setup.ts';
import { type TracedPath, trace } from '../signal/traced.ts';
import { freedomsOf, standingIn } from './freedoms.ts';
import { type MovedSub, movedSubs, type PlaceOptions, placesOf } from './movedSubs.ts';
import { costOverChannels, levelCost } from './placementCost.ts';
import { type JudgedChannels, judgedChannels } from './roomChannels.ts';
import { fixedAtSeats, rawMaps, searchedSubs } from './roomMaps.ts';
import type { PlacementTask } from './searchTask.ts';
import { share } from './share.ts';
import { measuredAtSpots, type Spot, spotsOf, withSpots } from './spots.ts';
import { type SubControls, subControls } from './subControls.ts';
import { targetOn_db } from './targetCurve.ts';
import type { InSlices } from './transferMap.ts';

export interface RoomPlacementOptions extends PlaceOptions {
  /** Judge the subs by themselves, without the mains. */
  readonly alone?: boolean;
  /** Leave level, delay and polarity as they are dialled in. */
  readonly keepSettings?: boolean;
  /** Search delay and polarity freely, whatever the arrivals ask for; otherwise each place has the delay that belongs to it. */
  readonly freeDelays?: boolean;
  readonly candidateCount?: number;
}

export interface RoomTask {
  readonly task: PlacementTask;
  readonly context: FieldContext;
  readonly moved: readonly MovedSub[];
  readonly channels: JudgedChannels;
  readonly controls: readonly SubControls[];
  readonly paths: readonly TracedPath[];
  readonly withMains: boolean;
  readonly placeCount: number;
  /** By moved sub: places of which there are takes. */
  readonly spots: readonly (readonly Spot[])[];
  readonly notes: readonly Note[];
}

/** Why there is nothing to search. */
export interface Refused {
  readonly refused: Note;
}

/** Decibels of flatness that a decibel more at the seats is worth: enough that silence is never the answer. Our own weight. */
const OUTPUT_WEIGHT = 0.05;
const POINTS_PER_OCTAVE = { box: 24, other: 12 } as const;
/** Below it nothing is judgedCount; above the crossover only as far as the sub still counts. */
const FROM_HZ = 20;
const BEYOND_CROSSOVER = 1.4;
/** Without a crossover: the LFE's band. @source ITU-R BS.775-3 Annex 7 */
const WITHOUT_CROSSOVER_HZ = 120;
const CANDIDATES = 5;
/** A metre is another place; half of it hardly. Common practice, no source. */
const DIFFERENT_M = 0.75;

type Of = Pick<Setup, 'room' | 'air' | 'referenceSeat' | 'crossovers' | 'advice' | 'measured'>;

export function* roomTask(setup: Of, options: RoomPlacementOptions): InSlices<RoomTask | Refused> {
  const { room } = setup;
  const { paths } = trace(room);
  const asked = movedSubs(room.subwoofers, options);
  if (asked.length === 0) return refused('subwoofers', 'no subwoofer to place');
  const ids = asked.map(({ source }) => source.id);
  const crossover_hz = crossoverOf_hz(paths, ids);
  const context = contextOf(setup, asked, crossover_hz);
  if (context === null) return refused('space', 'the size of the room is not recorded');
  if (context.seats.length === 0) return refused('seats', 'no seat inside the room');
  const allSpots = asked.map((sub) => spotsIn(setup, context, sub));
  const allPlaces = asked.map((sub, index) =>
    withSpots(placesOf(context, room, asked, sub, options), allSpots[index] ?? []),
  );
  const empty = asked.find((_, index) => allPlaces[index]?.length === 0);
  if (empty) {
    const why = 'too near to walls, fixtures, seats or loudspeakers everywhere';
    return refused('subwoofers', `no place on the floor is left for ${empty.id}: ${why}`);
  }
  const all = channelsOf(room, paths, asked, allPlaces, context, options);
  const plays = asked.map((_, index) =>
    all.channels.some(({ moved }) => moved[index]?.re.some((re) => re !== 0)),
  );
  const playing = <Thing>(list: readonly Thing[]) => list.filter((_, index) => plays[index]);
  const [moved, places, spots] = [playing(asked), playing(allPlaces), playing(allSpots)];
  if (moved.length === 0) return refused('wiring', 'nothing is known that plays on the subwoofers');
  const channels = {
    ...all,
    channels: all.channels.map((channel) => ({ ...channel, moved: playing(channel.moved) })),
  };
  const controls = moved.map(({ source }) =>
    subControls(room, paths, source.id, channels.level.kind === 'absolute'),
  );
  const predicted = yield* share(rawMaps(context, moved, places), 0, 1);
  const raw = predicted.map((map, index) => {
    const drive = channels.channels[0]?.moved[index];
    const seatIndex = context.seats.findIndex(({ id }) => id === setup.referenceSeat);
    return drive === undefined || seatIndex < 0
      ? map
      : measuredAtSpots(map, spots[index] ?? [], drive, seatIndex);
  });
  const freedoms = freedomsOf(setup, paths, { moved, places, channels, controls }, options);
  const subs = searchedSubs(context, moved, channels, controls, raw, freedoms);
  const withMains = channels.channels.some(({ fixed }) => 0 < fixed.length);
  return {
    task: {
      subs,
      fixed: withMains ? fixedAtSeats(context, channels) : null,
      crossover_hz,
      ...judgement(setup, context, moved, channels.channels.length, options),
    },
    context,
    moved,
    channels,
    controls,
    paths,
    withMains,
    placeCount: places[0]?.length ?? 0,
    spots,
    notes: [
      ...moved.flatMap((sub, index) => spotsNote(sub, spots[index] ?? [], setup.referenceSeat)),
      ...moved.flatMap(sizeNote),
      ...asked.flatMap((sub, index) => (plays[index] ? [] : [silentNote(sub, moved[0])])),
      ...channels.notes,
    ],
  };
}

function spotsIn(
  { measured, room }: Of,
  { fieldRoom }: FieldContext,
  { source, height_m, isCopy }: MovedSub,
): readonly Spot[] {
  return isCopy
    ? []
    : spotsOf(measured, room, source, height_m).filter(({ at }) => isInside(fieldRoom.shape, at));
}

/** By what measure, and how many are wanted. */
function judgement(
  { room, referenceSeat }: Of,
  { seats, frequency_hz, fieldRoom }: FieldContext,
  moved: readonly MovedSub[],
  channelCount: number,
  { candidateCount }: RoomPlacementOptions,
): Omit<PlacementTask, 'subs' | 'fixed' | 'crossover_hz'> {
  const referenceSeatIndex = Math.max(
    0,
    seats.findIndex(({ id }) => id === referenceSeat),
  );
  const flatnessWeights = seats.map((_, index) => (index === referenceSeatIndex ? 1 : 0));
  const { box } = fieldRoom.shape;
  return {
    channelCount,
    target_db: targetOn_db(room.targets.curve, frequency_hz),
    cost: costOverChannels(
      levelCost({ flatnessWeights, spreadWeight: 1, outputWeight: OUTPUT_WEIGHT }),
      channelCount,
    ),
    referenceSeatIndex,
    apart_m: Math.max(...moved.map(({ size }) => Math.max(size.width_m, size.depth_m))),
    candidateCount: candidateCount ?? CANDIDATES,
    different_m: DIFFERENT_M,
    halves: box === null ? null : { x_m: box.x_m / 2, y_m: box.y_m / 2 },
  };
}

function contextOf(
  setup: Of,
  moved: readonly MovedSub[],
  crossover_hz: number | null,
): FieldContext | null {
  const shapeOnly = fieldContext(setup, []);
  if (shapeOnly === null) return null;
  const low = moved.flatMap(({ source }) => source.gear?.lowEnd?.minus6db_hz ?? []);
  const from_hz = Math.max(FROM_HZ, Math.min(...low, 2 * FROM_HZ));
  const to_hz = crossover_hz === null ? WITHOUT_CROSSOVER_HZ : crossover_hz * BEYOND_CROSSOVER;
  const perOctave = POINTS_PER_OCTAVE[shapeOnly.fieldRoom.shape.box === null ? 'other' : 'box'];
  return fieldContext(setup, [...logGrid_hz(from_hz, Math.max(to_hz, 1.5 * from_hz), perOctave)]);
}

/** The lowest low-pass on the way to a moved sub that is no LFE's. */
function crossoverOf_hz(paths: readonly TracedPath[], moved: readonly string[]): number | null {
  const all = paths
    .filter(({ target, isLfe }) => moved.includes(target) && !isLfe)
    .flatMap(({ stages }) => stages)
    .flatMap(({ kind, value }) =>
      kind === 'low_pass' && value?.kind === 'filter' ? (value.frequency_hz ?? []) : [],
    );
  return all.length === 0 ? null : Math.min(...all);
}

/** The room with each moved sub somewhere, since levels of subs without a place cannot be told. */
function channelsOf(
  room: Room,
  paths: readonly TracedPath[],
  moved: readonly MovedSub[],
  places: readonly (readonly Point3[])[],
  { frequency_hz }: FieldContext,
  { alone }: RoomPlacementOptions,
): JudgedChannels {
  const ids = moved.map(({ source }) => source.id);
  return judgedChannels(standingIn(room, moved, places), paths, ids, frequency_hz, alone ?? false);
}

function refused(key: string, message: string): Refused {
  return { refused: { path: [key], message } };
}

function spotsNote(
  { id, source }: MovedSub,
  spots: readonly Spot[],
  seat: string | null,
): readonly Note[] {
  if (spots.length === 0) return [];
  const message = `${spots.length} of the places of ${id} ${spots.length === 1 ? 'was' : 'were'} measured: there the takes count at ${seat ?? 'the reference seat'}, not the prediction`;
  return [{ path: ['subwoofers', source.id], message }];
}

function sizeNote({ id, source }: MovedSub): readonly Note[] {
  if (source.gear?.size) return [];
  const message = `the size of ${id} is not recorded: 0.4 × 0.4 × 0.45 m is assumed`;
  return [{ path: ['subwoofers', source.id], message }];
}

function silentNote({ id }: MovedSub, lead: MovedSub | undefined): Note {
  return {
    path: ['subwoofers', id],
    message: `${id} plays on other channels than ${lead?.id ?? 'the first'}: it was left where it is; place it by itself`,
  };
}
