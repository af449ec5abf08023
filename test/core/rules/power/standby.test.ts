// Rule power/standby: told where standby is on, quiet where it is off (common practice, no source).

import { expect, test } from 'vitest';
import { told } from '../../../support/findingsOf.ts';
import { choice, subRoomWith } from '../../../support/wiredRooms.ts';
import { findingsWith, worked } from '../../../support/worked.ts';

test('power/standby', () => {
  const on = worked(subRoomWith({ standby: choice('30 min') }));
  expect(told(findingsWith(on, 'power/standby'))).toEqual([
    'settings.sub.standby: sub goes to standby (30 min)',
  ]);
  const off = worked(subRoomWith({ standby: choice('off') }));
  expect(findingsWith(off, 'power/standby')).toEqual([]);
});
