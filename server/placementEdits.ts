// A candidate's places as edits of the room file; settings are left to be dialled in, where each shows what it is for.

import type { SemanticEdit } from '../core/finding.ts';
import type { RoomPlacement } from '../core/search/roomPlacement.ts';
import type { PlacementCandidate } from '../core/search/searchTask.ts';
import type { Setup } from '../core/setup.ts';
import type { Show } from '../core/show.ts';

/** null where a sub of the candidate is a copy that the file does not hold. */
export function placementEdits(
  { room }: Pick<Setup, 'room'>,
  { subs }: Pick<RoomPlacement, 'subs'>,
  { positions }: Pick<PlacementCandidate, 'positions'>,
  show: Show,
): readonly SemanticEdit[] | null {
  if (subs.some(({ isCopy }) => isCopy)) return null;
  return positions.flatMap((position, index): readonly SemanticEdit[] => {
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
}
