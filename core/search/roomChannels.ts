// Which channels a placement is judged by, and what in each of them stays and what moves: from the room's wiring.

import type { Room } from '../../schema/model/room.ts';
import { type ComplexResponse, sumOf } from '../acoustics/complex.ts';
import { type Drive, type Drives, drivesOf, waysOf } from '../field/drives.ts';
import { channelGroups, silence } from '../field/sums.ts';
import type { TracedPath } from '../signal/traced.ts';

export interface JudgedChannel {
  /** null where nothing is wired to the subwoofers: then they are judged by themselves. */
  readonly channel: string | null;
  /** The set of monitors that is switched on. */
  readonly set: string | null;
  /** What sounds besides the moved ones. */
  readonly fixed: readonly Drive[];
  /** By moved sub: free-field pressure at 1 m, Pa; silence where the channel does not reach it. */
  readonly moved: readonly ComplexResponse[];
}

export interface JudgedChannels {
  readonly channels: readonly JudgedChannel[];
  readonly level: Drives['level'];
  readonly notes: Drives['notes'];
}

/** Left and right tell all that more of them would. */
const MOST_CHANNELS = 2;

/**
 * Main channels that the moved subs share with loudspeakers; those that only they play where there are none; the bare subs where nothing
 * is wired to them.
 *
 * @param room with a place for every moved sub
 * @param alone whether to leave the loudspeakers out
 */
export function judgedChannels(
  room: Parameters<typeof waysOf>[0] & Parameters<typeof drivesOf>[0] & Pick<Room, 'sets'>,
  paths: readonly TracedPath[],
  moved: readonly string[],
  frequency_hz: readonly number[],
  alone: boolean,
): JudgedChannels {
  const driven = drivesOf(room, waysOf(room, paths, frequency_hz));
  const isMoved = ({ source }: Drive) => moved.includes(source.id);
  const groups = channelGroups(driven.drives).filter(({ drives }) => drives.some(isMoved));
  const joint = groups.filter(({ drives }) =>
    drives.some((drive) => !isMoved(drive) && !drive.isLfe),
  );
  const [lead] = alone || joint.length === 0 ? groups : joint;
  const chosen = (joint.length === 0 ? groups : joint)
    .filter(({ set }) => set === lead?.set)
    .slice(0, alone || joint.length === 0 ? 1 : MOST_CHANNELS);
  const bare = driven.drives.filter((drive) => isMoved(drive) && drive.channel === null);
  const all: readonly {
    readonly channel: string | null;
    readonly set: string | null;
    readonly drives: readonly Drive[];
  }[] = 0 < chosen.length ? chosen : [{ channel: null, set: bare[0]?.set ?? null, drives: bare }];
  return {
    channels: all.map(({ channel, set, drives }) => ({
      channel,
      set,
      fixed: alone ? [] : drives.filter((drive) => !isMoved(drive)),
      moved: moved.map((id) =>
        drives
          .filter(({ source }) => source.id === id)
          .map(({ pressure_pa }) => pressure_pa)
          .reduce(sumOf, silence(frequency_hz.length)),
      ),
    })),
    level: driven.level,
    notes: driven.notes,
  };
}
