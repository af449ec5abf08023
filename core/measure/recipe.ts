// Which takes a room needs, in the order of the work, and what each makes known.

import type { Setup } from '../setup.ts';

/** What a take makes known. */
export type Unlock =
  | 'arrival'
  | 'polarity'
  | 'level'
  | 'response'
  | 'decay'
  | 'left-right-match'
  | 'crossover-sum'
  | 'sub-alignment'
  | 'seat-spread'
  | 'swapped-channels'
  | 'average-for-eq';

export interface RecipeTake {
  /** A key for the room file: small letters, digits and _. */
  readonly id: string;
  /** The channel to play on; null where the file does not tell. */
  readonly drive: string | null;
  /** What is to be heard; everything else is off or muted. */
  readonly sounding: readonly string[];
  readonly seat: string;
  /** Where the microphone stands instead, for points about the seat. */
  readonly point: { readonly x_m: number; readonly y_m: number; readonly z_m: number } | null;
  /** Subwoofers whose polarity is turned over for this take only. */
  readonly inverted: readonly string[];
  /** The polarity that each of them then has, where it has a control for it; absent where none is turned over. */
  readonly turnedTo?: Readonly<Record<string, 'normal' | 'inverted'>>;
  readonly unlocks: readonly Unlock[];
}

/** Points about the seat, each so far from it. @source common practice, no source */
const AWAY_M = 0.25;
const POINTS = [
  { x_m: -AWAY_M, y_m: 0 },
  { x_m: AWAY_M, y_m: 0 },
  { x_m: 0, y_m: -AWAY_M },
  { x_m: 0, y_m: AWAY_M },
] as const;

/** @returns empty where the room has no reference seat */
export function recipe({ room, signalPaths, referenceSeat }: Setup): readonly RecipeTake[] {
  const seat = room.seats.find(({ id }) => id === referenceSeat);
  if (seat === undefined) return [];
  const channels = channelsOf(room, signalPaths);
  const mains = channels.flatMap(({ main, ...one }) => (main === null ? [] : [{ ...one, main }]));
  const together = mains.filter(({ subs }) => 0 < subs.length);
  const pair = (together.length === 0 ? mains : together).slice(0, 2);
  const others = room.seats.filter(({ id }) => id !== seat.id);
  const driveOf = (sub: string): string | null =>
    channels.find(({ subs }) => subs.includes(sub))?.drive ?? null;
  return [
    ...mains.map(({ drive, main }) => take(main, drive, [main], seat.id, MAIN_ALONE)),
    ...room.subwoofers.map(({ id }) => take(id, driveOf(id), [id], seat.id, SUB_ALONE)),
    ...together.map((one) =>
      take(`${one.main}_with_sub`, one.drive, soundingOf(one), seat.id, [
        'crossover-sum',
        'sub-alignment',
      ]),
    ),
    ...together.slice(0, 1).map((one) => ({
      ...take(`${one.main}_sub_inverted`, one.drive, soundingOf(one), seat.id, ['sub-alignment']),
      inverted: one.subs,
      turnedTo: turnedTo(room, one.subs),
    })),
    ...pair.flatMap((one) => pointsAbout(seat, one)),
    ...others.flatMap(({ id }) =>
      pair.map((one) => take(one.main, one.drive, soundingOf(one), id, ['seat-spread'])),
    ),
  ];
}

/** The other polarity than is dialled in. */
function turnedTo(
  { subwoofers, settings }: Setup['room'],
  subs: readonly string[],
): Readonly<Record<string, 'normal' | 'inverted'>> {
  return Object.fromEntries(
    subs.flatMap((id) => {
      const { gear } = subwoofers.find((one) => one.id === id) ?? { gear: null };
      if (!gear?.controls.some(({ name }) => name === 'polarity')) return [];
      const values = settings.find(({ device }) => device === id)?.values ?? [];
      const told = values.find(({ control }) => control === 'polarity')?.told;
      return [[id, told === 'inverted' ? 'normal' : 'inverted'] as const];
    }),
  );
}

const MAIN_ALONE: readonly Unlock[] = [
  'arrival',
  'polarity',
  'level',
  'left-right-match',
  'response',
  'decay',
];
const SUB_ALONE: readonly Unlock[] = ['arrival', 'polarity', 'level', 'response', 'decay'];

interface Main {
  readonly drive: string | null;
  readonly main: string;
  readonly subs: readonly string[];
}

function soundingOf({ main, subs }: Main): readonly string[] {
  return [main, ...subs];
}

function take(
  name: string,
  drive: string | null,
  sounding: readonly string[],
  seat: string,
  unlocks: readonly Unlock[],
): RecipeTake {
  return { id: `${name}_${seat}`, drive, sounding, seat, point: null, inverted: [], unlocks };
}

/** Four points; the fifth of the cloud is the seat itself. Those to the sides also tell left from right. */
function pointsAbout(seat: Setup['room']['seats'][number], one: Main): readonly RecipeTake[] {
  const { at } = seat;
  if (at === null) return [];
  return POINTS.map(({ x_m, y_m }, index) => ({
    ...take(one.main, one.drive, soundingOf(one), seat.id, [
      'average-for-eq',
      ...(x_m === 0 ? [] : (['swapped-channels'] as const)),
    ]),
    id: `${one.main}_${seat.id}_point_${index + 1}`,
    point: { x_m: at.x_m + x_m, y_m: at.y_m + y_m, z_m: at.z_m },
  }));
}

interface Channel {
  readonly drive: string | null;
  readonly main: string | null;
  readonly subs: readonly string[];
}

/** Each main with what plays along on its input, and inputs that reach subwoofers only. */
function channelsOf(room: Setup['room'], paths: Setup['signalPaths']): readonly Channel[] {
  const subIds = new Set(room.subwoofers.map(({ id }) => id));
  const inputs = [...new Set(paths.map(({ source }) => `${source.device}.${source.port}`))];
  const driven = inputs.flatMap((input): readonly Channel[] => {
    const heard = paths.filter(({ source }) => `${source.device}.${source.port}` === input);
    const drive = heard.find(({ channel }) => channel !== null)?.channel ?? null;
    const targets = [...new Set(heard.map(({ target }) => target))];
    const subs = targets.filter((id) => subIds.has(id));
    const mains = targets.filter((id) => !subIds.has(id));
    return mains.length === 0
      ? [{ drive, main: null, subs }]
      : mains.map((main) => ({ drive, main, subs }));
  });
  // A main may be reached by several inputs (sets, redirected channels): its own channel's comes first.
  const once = room.speakers.map(({ id, channel }) => {
    const found = driven.filter(({ main }) => main === id);
    const own = found.find(({ drive }) => drive === channel) ?? found[0];
    return own ?? { drive: channel, main: id, subs: [] };
  });
  return [...once, ...driven.filter(({ main }) => main === null)];
}
