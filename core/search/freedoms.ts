// What a search may set of each subwoofer, and what comes with each place: the delay that arrival asks for there, a matched level.

import type { Room } from '../../schema/model/room.ts';
import { distance_m, type Point3 } from '../acoustics/point.ts';
import { referenceSeat } from '../parts/referenceSeat.ts';
import type { Setup } from '../setup.ts';
import type { TracedPath } from '../signal/traced.ts';
import { type SubAlignment, subAlignment } from './aligned.ts';
import type { MovedSub } from './movedSubs.ts';
import type { JudgedChannels } from './roomChannels.ts';
import type { SubFreedom } from './roomMaps.ts';
import type { SettingRanges, SubSetting } from './searchTask.ts';
import type { SubControls } from './subControls.ts';

export interface Searched {
  readonly moved: readonly MovedSub[];
  /** By moved sub. */
  readonly places: readonly (readonly Point3[])[];
  readonly controls: readonly SubControls[];
  readonly channels: JudgedChannels;
}

const NOTHING: SettingRanges = { level_db: null, delay_s: null, canInvert: false };

/** In the order of the moved subs; each with one entry a place. */
export function freedomsOf(
  { room, air, crossovers }: Pick<Setup, 'room' | 'air' | 'crossovers'>,
  paths: readonly TracedPath[],
  { moved, places, controls, channels }: Searched,
  { keepSettings, freeDelays }: { readonly keepSettings?: boolean; readonly freeDelays?: boolean },
): readonly SubFreedom[] {
  const standing = standingIn(room, moved, places);
  const [lead] = channels.channels;
  const mains = {
    ids: (lead?.fixed ?? []).filter(({ isLfe }) => !isLfe).map(({ source }) => source.id),
    set: lead?.set ?? null,
  };
  const ear = referenceSeat(room)?.at ?? null;
  return moved.map(({ source, height_m }, index) => {
    const control = controls[index];
    const here = places[index] ?? [];
    const at = standing.subwoofers.find(({ id }) => id === source.id)?.at ?? null;
    const gain = (place: Point3) =>
      channels.level.kind === 'absolute' || ear === null || at === null
        ? 1
        : Math.max(0.1, distance_m(place, ear)) / Math.max(0.1, distance_m(at, ear));
    if (control === undefined || keepSettings || freeDelays) {
      return {
        setting: control?.setting ?? { level_db: 0, delay_s: 0, inverted: false },
        ranges: keepSettings || control === undefined ? NOTHING : control.ranges,
        own: here.map((place) => ({ gain_ratio: gain(place), wait_s: 0 })),
      };
    }
    const aligned = subAlignment(
      standing,
      paths,
      crossovers,
      air.speedOfSound_m_s,
      source.id,
      mains,
      control.setting.inverted,
    );
    const { setting, ranges, counted_s } = alignedFreedom(control, aligned);
    const wait_s = (place: Point3) =>
      aligned === null ? 0 : aligned.wait_s({ ...place, z_m: height_m }) - counted_s;
    return {
      setting,
      ranges,
      own: here.map((place) => ({ gain_ratio: gain(place), wait_s: wait_s(place) })),
    };
  });
}

/** Every sub somewhere: arrivals and levels of subs without a place cannot be told. */
export function standingIn<Of extends Pick<Room, 'subwoofers'>>(
  room: Of,
  moved: readonly MovedSub[],
  places: readonly (readonly Point3[])[],
): Of {
  const first = new Map(moved.map(({ source }, i) => [source.id, places[i]?.[0] ?? null]));
  const subwoofers = room.subwoofers.map((sub) => ({
    ...sub,
    at: sub.at ?? first.get(sub.id) ?? null,
  }));
  return { ...room, subwoofers };
}

interface AlignedFreedom {
  readonly setting: SubSetting;
  readonly ranges: SettingRanges;
  /** What of its own delay the drives still hold. */
  readonly counted_s: number;
}

/** Delays count from what arrival asks for: nothing is left to be searched. */
function alignedFreedom(
  { setting, ranges, delay }: SubControls,
  aligned: SubAlignment | null,
): AlignedFreedom {
  if (aligned === null)
    return { setting, ranges: { ...ranges, delay_s: null, canInvert: false }, counted_s: 0 };
  const { polarities, ownDelay_s } = aligned;
  const isOpen = polarities.normal && polarities.inverted;
  return {
    setting: {
      ...setting,
      delay_s: 0,
      inverted: ranges.canInvert && !isOpen ? polarities.inverted : setting.inverted,
    },
    ranges: { ...ranges, delay_s: null, canInvert: ranges.canInvert && isOpen },
    counted_s: delay === null ? ownDelay_s : ownDelay_s - setting.delay_s,
  };
}
