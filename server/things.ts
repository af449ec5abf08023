// Things of a room by their id: where a speaker, subwoofer or device stands in the file.

import type { Setup } from '../core/setup.ts';
import type { Path } from '../schema/model/path.ts';
import type { Speaker } from '../schema/model/room.ts';

export function speakersAndSubs({ room }: Setup): readonly Speaker[] {
  return [...room.speakers, ...room.subwoofers];
}

/** null for an id that the room does not have. */
export function pathOfThing({ room }: Setup, id: string): Path | null {
  if (room.speakers.some((speaker) => speaker.id === id)) return ['speakers', id];
  if (room.subwoofers.some((speaker) => speaker.id === id)) return ['subwoofers', id];
  if (room.devices.some((device) => device.id === id)) return ['devices', id];
  return null;
}
