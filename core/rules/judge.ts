// A judge of one file: gives a Setup its findings again after a later phase has added to it, running only rules that are touched.

import { memoLast } from '../parts/memo.ts';
import { createSteadyRoom } from '../parts/steadyRoom.ts';
import type { Setup } from '../setup.ts';
import { showFor } from '../show.ts';
import { createRuleRunner, type RunOptions } from './run.ts';

/** The Setup with the findings that are its own; what it held before is not looked at. */
export type Judge = (setup: Setup, options: RunOptions) => Setup;

/** One for each file: it remembers what every rule read last time. */
export function createJudge(): Judge {
  const runRules = createRuleRunner();
  const show = memoLast(showFor);
  const steady = createSteadyRoom();
  return (setup, options) => {
    const { room } = setup;
    const { wired } = steady(room);
    return { ...setup, findings: runRules(setup, show(room.habits), options, wired) };
  };
}
