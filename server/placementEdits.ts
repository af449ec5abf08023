// A candidate as edits of the room file: where each subwoofer goes, and the settings that belong to it there.

import type { SemanticEdit } from '../core/finding.ts';
import { dialInEdits } from '../core/search/dialled.ts';
import type { RoomCandidate, RoomPlacement } from '../core/search/roomPlacement.ts';
import type { Setup } from '../core/setup.ts';
import type { Show } from '../core/show.ts';

/** null where a sub of the candidate is a copy that the file does not hold. */
export function placementEdits(
  { room }: Pick<Setup, 'room'>,
  { subs }: Pick<RoomPlacement, 'subs'>,
  { positions, dialIn }: Pick<RoomCandidate, 'positions' | 'dialIn'>,
  show: Show,
): readonly SemanticEdit[] | null {
  if (subs.some(({ isCopy }) => isCopy)) return null;
  const places = positions.flatMap((position, index): readonly SemanticEdit[] => {
    const id = subs[index]?.id ?? '';
    const path = ['subwoofers', id, 'at'];
    const [x, y, z] = [position.x_m, position.y_m, position.z_m].map(show.length);
    const has = room.subwoofers.find((sub) => sub.id === id)?.at ?? null;
    if (has === null) {
      return [{ do: 'set', path, value: `{ x: ${x}, y: ${y}, z: ${z} }` }];
    }
    return [
      { do: 'set', path: [...path, 'x'], value: x ?? '' },
      { do: 'set', path: [...path, 'y'], value: y ?? '' },
    ];
  });
  return [...places, ...dialInEdits(room, dialIn)];
}
