// Rule levels/noise: on both sides of 10 dB below the room's noise, with a background recorded and without.

import { describe, expect, test } from 'vitest';
import type { Gear } from '../../../../schema/model/gear.ts';
import type { Room } from '../../../../schema/model/room.ts';
import { LOUD, loudRoom } from '../../../support/loudRoom.ts';
import { DBU_18_V, device, SOURCE } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

/** Two loudspeakers at 2 m: at the seat `self_dba` − 6.02 + 3.01 dB. */
function roomWithNoise(self_dba: number, backgroundNoise: Room['space']['backgroundNoise']): Room {
  const own: Gear = { ...LOUD, selfNoise_dba: self_dba };
  const room = loudRoom(
    79,
    { devices: [device('desk', { ...SOURCE, fullLevelOutput_v: DBU_18_V })] },
    own,
  );
  return { ...room, space: { ...room.space, backgroundNoise } };
}
const found = (...args: Parameters<typeof roomWithNoise>) =>
  findingsWith(worked(roomWithNoise(...args)), 'levels/noise');

describe('levels/noise', () => {
  // NR 15 as 20 dBA (common practice, no source): 10 dBA at the seat, 13.01 dBA at 1 m from each.
  test('nearer than 10 dB to the room’s noise', () => {
    const [finding, ...others] = found(14, { nr: 15 });
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('information');
    expect(finding?.path).toEqual(['speakers', 'left']);
    expect(finding?.message).toBe(
      'Noise of the electronics at mix is 11.0 dBA, at most 10.0 dBA is asked for: 10 dB below a background of 20.0 dBA (from its NR); loudest is left’s own noise, 8.0 dBA',
    );
  });

  test('10 dB below it is within', () => {
    expect(found(13, { nr: 15 })).toEqual([]);
  });

  test('a louder room hides more, a level in dBA counts as it is', () => {
    expect(found(14, { nr: 25 })).toEqual([]);
    const level = { level_db: 18, weighting: 'A' } as const;
    expect(found(12, { nr: null, level })[0]?.message).toContain('18.0 dBA (recorded)');
  });

  test('nothing recorded of the room: NR 15 stands in; nothing of the gear: quiet', () => {
    expect(found(14, null)[0]?.message).toContain('20.0 dBA (NR 15, as nothing is recorded)');
    expect(findingsWith(worked(loudRoom(79)), 'levels/noise')).toEqual([]);
  });
});
