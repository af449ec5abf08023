// The demo rooms with their low end, which takes seconds: each worked out once for all tests that one worker runs.

import type { Setup } from '../../core/setup.ts';
import { withField } from '../../core/withField.ts';
import { demoRooms } from './demoRooms.ts';

const known = new Map<string, Setup>();

/** With its envelope, on no day. */
export function demoField(name: string): Setup {
  const room = demoRooms().find((one) => one.name === name);
  if (room === undefined) throw new RangeError(`no demo room ${name}`);
  const setup = known.get(name) ?? withField(room.setup, { today: null });
  known.set(name, setup);
  return setup;
}
