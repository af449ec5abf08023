// Part of Setup: how the loudspeakers stand against the layout that the room, or each of its sets, is to have.

import type { Room, SpeakerSet } from '../../schema/model/room.ts';
import { distance_m } from '../acoustics/point.ts';
import { isLfeName, positionFor } from '../layouts/channelNames.ts';
import { layoutNamed } from '../layouts/itu2051.ts';
import type { Layout, LayoutPosition } from '../layouts/position.ts';
import type { LayoutFigures, Note, SeatDeviation } from '../setup.ts';
import type { AnglesPart, SeatAngles } from './angles.ts';
import { layoutTolerances } from './layoutTolerances.ts';
import { placedSources, referenceSeat, type Sounding } from './referenceSeat.ts';

export interface LayoutPart {
  readonly layouts: readonly LayoutFigures[];
  readonly notes: readonly Note[];
}

/** What of a room the layouts depend on. */
export type LaidOut = Sounding & Pick<Room, 'seats' | 'sets' | 'targets' | 'policy'>;

interface Wanted {
  readonly name: string;
  readonly set: SpeakerSet | null;
}

/** One entry for each set that has a layout, or one for the room where there are no sets. */
export function layoutPart(room: LaidOut, angles: AnglesPart): LayoutPart {
  const seat = referenceSeat(room);
  if (seat === undefined) return { layouts: [], notes: [] };
  const seatAngles = angles.seats.find((one) => one.seat === seat.id)?.angles ?? [];
  const layouts: LayoutFigures[] = [];
  const notes: Note[] = [];
  for (const { name, set } of wantedLayouts(room)) {
    const path = set === null ? ['targets', 'layout'] : ['sets', set.id, 'layout'];
    const layout = layoutNamed(name);
    if (layout === undefined) {
      notes.push({ path, message: `${name} is no layout of ITU-R BS.2051: nothing is compared` });
      continue;
    }
    const found = figures(room, layout, set, seat.id, seatAngles);
    layouts.push({ ...found, otherSeats: otherSeats(found, seat.id, angles) });
  }
  return { layouts, notes };
}

/** A set's own layout, else the room's, else the only one that the facility's policy allows. */
function wantedLayouts(room: LaidOut): readonly Wanted[] {
  const [first, ...others] = room.policy.layouts;
  const fallback = room.targets.layout ?? (others.length === 0 ? (first ?? null) : null);
  const sets: readonly (SpeakerSet | null)[] = room.sets.length === 0 ? [null] : room.sets;
  return sets.flatMap((set) => {
    const name = set?.layout ?? fallback;
    return name === null ? [] : [{ name, set }];
  });
}

function figures(
  room: LaidOut,
  layout: Layout,
  set: SpeakerSet | null,
  seat: string,
  angles: SeatAngles,
): LayoutFigures {
  const speakers = room.speakers.filter(({ id }) => set === null || set.speakers.includes(id));
  const byPosition = new Map<LayoutPosition, string>();
  for (const { id, channel } of speakers) {
    const position = channel === null ? undefined : positionFor(layout, channel);
    if (position !== undefined && !byPosition.has(position)) byPosition.set(position, id);
  }
  for (const [index, position] of layout.positions.filter(({ isLfe }) => isLfe).entries()) {
    const sub = byPosition.get(position) ?? lfeSubwoofer(room, set, index);
    if (sub !== undefined) byPosition.set(position, sub);
  }
  return {
    layout: layout.name,
    set: set?.id ?? null,
    seat,
    positions: layout.positions.map((position) =>
      judged(room, position, byPosition.get(position) ?? null, angles),
    ),
    ...frontPair(room, layout, byPosition),
    source: layout.source,
  };
}

/** Every other seat that sees a loudspeaker of the layout; the LFE has no direction. */
function otherSeats(
  { positions }: LayoutFigures,
  reference: string,
  angles: AnglesPart,
): readonly SeatDeviation[] {
  return angles.seats.flatMap(({ seat, angles: seen }): readonly SeatDeviation[] => {
    if (seat === reference) return [];
    const told = positions.flatMap((position) => {
      const one = seen.find(({ source }) => source === position.speaker);
      if (one === undefined || position.speaker === null || isLfeName(position.label)) return [];
      const isAbove = isOverhead({ elevation_rad: position.wantElevation_rad });
      return [
        {
          label: position.label,
          channel: position.channel,
          speaker: position.speaker,
          azimuth_rad: one.azimuth_rad,
          beyondAzimuth_rad: isAbove
            ? 0
            : beyondAzimuth_rad(one.azimuth_rad, position.wantAzimuth_rad),
          beyondElevation_rad: beyond_rad(one.elevation_rad, position.wantElevation_rad),
        },
      ];
    });
    if (told.length === 0) return [];
    const worst_rad = Math.max(...told.map((one) => one.beyondAzimuth_rad));
    return [{ seat, positions: told, worst_rad }];
  });
}

function judged(
  room: LaidOut,
  position: LayoutPosition,
  speaker: string | null,
  angles: SeatAngles,
): LayoutFigures['positions'][number] {
  const seen = angles.find(({ source }) => source === speaker);
  const { azimuth_rad, elevation_rad } = layoutTolerances(room.policy, position);
  const fits =
    seen === undefined || position.isLfe
      ? null
      : (beyondAzimuth_rad(seen.azimuth_rad, position.azimuth_rad) <= azimuth_rad + ROUNDING_RAD ||
          isOverhead(position)) &&
        beyond_rad(seen.elevation_rad, position.elevation_rad) <= elevation_rad + ROUNDING_RAD;
  return {
    label: position.label,
    channel: position.channel,
    speaker,
    azimuth_rad: seen?.azimuth_rad ?? null,
    elevation_rad: seen?.elevation_rad ?? null,
    wantAzimuth_rad: position.azimuth_rad,
    wantElevation_rad: position.elevation_rad,
    fits,
  };
}

/** A hundred-millionth of a radian: what the decimal digits of a file leave is no error of the room. */
export const ROUNDING_RAD = 1e-8;

/** Straight above there is no azimuth. */
export function isOverhead({
  elevation_rad,
}: {
  readonly elevation_rad: readonly [number, number];
}): boolean {
  return Math.PI / 2 <= elevation_rad[0];
}

/** How far an angle lies outside a range, radians; 0 inside. */
export function beyond_rad(angle_rad: number, [low, high]: readonly [number, number]): number {
  return Math.max(0, low - angle_rad, angle_rad - high);
}

/** The same for an azimuth, which comes round again after a full turn. */
export function beyondAzimuth_rad(azimuth_rad: number, range: readonly [number, number]): number {
  const turn = 2 * Math.PI;
  return Math.min(
    ...[azimuth_rad - turn, azimuth_rad, azimuth_rad + turn].map((a) => beyond_rad(a, range)),
  );
}

/** The sub that stands for the layout's LFE loudspeaker: one with that channel, else by order, else the only one. */
function lfeSubwoofer(room: LaidOut, set: SpeakerSet | null, index: number): string | undefined {
  const subs = room.subwoofers.filter(({ id }) => set === null || set.subwoofers.includes(id));
  const named = subs.filter(({ channel }) => channel !== null && isLfeName(channel));
  return (named[index] ?? subs[index])?.id;
}

/** Distance between left and right, and from the seat to the middle between them. */
function frontPair(
  room: LaidOut,
  layout: Layout,
  byPosition: ReadonlyMap<LayoutPosition, string>,
): Pick<LayoutFigures, 'baseWidth_m' | 'listeningDistance_m'> {
  const sources = placedSources(room);
  const at = (channel: string) => {
    const position = positionFor(layout, channel);
    const id = position && byPosition.get(position);
    return sources.find((source) => source.id === id)?.at;
  };
  const left = at('M+030');
  const right = at('M-030');
  const ear = referenceSeat(room)?.at ?? null;
  if (left === undefined || right === undefined) {
    return { baseWidth_m: null, listeningDistance_m: null };
  }
  const middle = {
    x_m: (left.x_m + right.x_m) / 2,
    y_m: (left.y_m + right.y_m) / 2,
    z_m: (left.z_m + right.z_m) / 2,
  };
  return {
    baseWidth_m: distance_m(left, right),
    listeningDistance_m: ear === null ? null : distance_m(ear, middle),
  };
}
