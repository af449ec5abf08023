// A placement search for a room as its file stands, beside the room as it is by the same measure.

import type { Point3 } from '../acoustics/point.ts';
import { noFieldNote } from '../field/context.ts';
import type { Note, Setup } from '../setup.ts';
import { createWorkOut } from '../workOut.ts';
import { type DialledSetting, dialled, freelyDialled } from './dialled.ts';
import { freedomsOf } from './freedoms.ts';
import { rawMaps, searchedSubs } from './roomMaps.ts';
import { type RoomPlacementOptions, type RoomTask, roomTask } from './roomTask.ts';
import { searchPlacement } from './searchPlacement.ts';
import type { PlacementCandidate } from './searchTask.ts';
import { share } from './share.ts';
import type { SubControls } from './subControls.ts';
import type { InSlices } from './transferMap.ts';

/** A candidate whose delays are what the devices hold. */
export interface RoomCandidate extends PlacementCandidate {
  /** Settings that belong to it; those of the room as it stands are none. */
  readonly dialIn: readonly DialledSetting[];
  /** By sub: whether takes count at its place, not the prediction alone. */
  readonly measured: readonly boolean[];
}

export interface RoomPlacement {
  /** In the order of a candidate's positions. A copy has no entry in the file. */
  readonly subs: readonly { readonly id: string; readonly isCopy: boolean }[];
  /** Judged together with the mains, or what plays on the subs alone; empty where nothing is wired. */
  readonly channels: readonly string[];
  readonly withMains: boolean;
  /** Seats of the levels; all of them for the first channel, then for the next. */
  readonly seats: readonly string[];
  readonly referenceSeat: string | null;
  readonly frequency_hz: readonly number[];
  /** How many places are allowed, of the first sub. */
  readonly placeCount: number;
  /** The room as it stands, by the same measure; null where a sub has no place yet. */
  readonly current: PlacementCandidate | null;
  readonly candidates: readonly RoomCandidate[];
  readonly judgedCount: number;
  readonly exhaustive: boolean;
  readonly controls: readonly SubControls[];
  readonly notes: readonly Note[];
}

/** Maps are made first; what is left of the share is the search. */
const MAPS_SHARE = 0.4;
const SEARCH_SHARE = 0.98;

/** Work for a second or so, to be taken in slices. Where nothing can be searched, no candidates, and a note that says why. */
export function* placeSubwoofers(
  setup: Pick<Setup, 'room' | 'air' | 'referenceSeat' | 'crossovers' | 'advice' | 'measured'>,
  options: RoomPlacementOptions = {},
): InSlices<RoomPlacement> {
  const prepared = yield* share(roomTask(setup, options), 0, MAPS_SHARE);
  if ('refused' in prepared) return nothing(prepared.refused);
  const { task, context, moved, channels, controls, withMains, placeCount, notes } = prepared;
  const { candidates, judgedCount, exhaustive } = yield* share(
    searchPlacement(task),
    MAPS_SHARE,
    SEARCH_SHARE,
  );
  const { seats, frequency_hz } = context;
  const subs = moved.map(({ id, isCopy }) => ({ id, isCopy }));
  const moving = { setup, subs, controls, workOut: createWorkOut() };
  return {
    subs,
    channels: channels.channels.flatMap(({ channel }) => channel ?? []),
    withMains,
    seats: seats.map(({ id }) => id),
    referenceSeat: seats[task.referenceSeatIndex]?.id ?? null,
    frequency_hz,
    placeCount,
    current: yield* share(asItStands(setup, prepared), SEARCH_SHARE, 1),
    candidates: candidates.map((found) => {
      const measured = found.positions.map((position, index) =>
        (prepared.spots[index] ?? []).some(({ at }) => at === position),
      );
      const candidate = { ...found, measured };
      if (options.keepSettings) return { ...candidate, dialIn: [] };
      return options.freeDelays ? freelyDialled(moving, candidate) : dialled(moving, candidate);
    }),
    judgedCount,
    exhaustive,
    controls,
    notes,
  };
}

/** One place each: where they are. */
function* asItStands(
  setup: Pick<Setup, 'room' | 'air' | 'crossovers'>,
  { task, context, moved, channels, controls, paths }: RoomTask,
): InSlices<PlacementCandidate | null> {
  const places: (readonly Point3[])[] = [];
  for (const { source, isCopy } of moved) {
    const { at } = source;
    if (isCopy || at === null) return null;
    if (noFieldNote(context, { ...source, at, isSubwoofer: true }) !== null) return null;
    places.push([at]);
  }
  const raw = yield* rawMaps(context, moved, places);
  const freedoms = freedomsOf(
    setup,
    paths,
    { moved, places, channels, controls },
    { keepSettings: true },
  );
  const subs = searchedSubs(context, moved, channels, controls, raw, freedoms);
  const { candidates } = yield* searchPlacement({ ...task, subs, apart_m: 0 });
  return candidates[0] ?? null;
}

function nothing(note: Note): RoomPlacement {
  return {
    subs: [],
    channels: [],
    withMains: false,
    seats: [],
    referenceSeat: null,
    frequency_hz: [],
    placeCount: 0,
    current: null,
    candidates: [],
    judgedCount: 0,
    exhaustive: true,
    controls: [],
    notes: [note],
  };
}
