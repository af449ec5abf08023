// A room worked out as the server does it, and what a test asks of the answer most often.

import type { Finding } from '../../core/finding.ts';
import type { Arrival, SettingAdvice, Setup } from '../../core/setup.ts';
import { createWorkOut } from '../../core/workOut.ts';
import type { Room } from '../../schema/model/room.ts';

const OPTIONS = { today: null, defaultTemperature_k: 293.15 } as const;

/** One worker for all rooms of a test file, as for all edits of one file: what it keeps must never show. */
const workOut = createWorkOut();

export function worked(room: Room): Setup {
  return workOut(room, OPTIONS);
}

/** By a worker that has seen no room before. */
export function workedAfresh(room: Room): Setup {
  return createWorkOut()(room, OPTIONS);
}

/** The advice on a setting by its path ("settings.sub.polarity"). */
export function adviceAt(setup: Setup, path: string): SettingAdvice {
  const advice = setup.advice.find((one) => one.path.join('.') === path);
  if (advice === undefined) throw new Error(`no advice at ${path}`);
  return advice;
}

/** The arrival of a source at a seat, in the first of its sets. */
export function arrivalOf(setup: Setup, seat: string, source: string): Arrival {
  const arrival = setup.seats
    .find(({ id }) => id === seat)
    ?.arrivals.find((one) => one.source === source);
  if (arrival === undefined) throw new Error(`no arrival of ${source} at ${seat}`);
  return arrival;
}

/** Findings whose code begins so. */
export function findingsWith(setup: Setup, code: string): readonly Finding[] {
  return setup.findings.filter((finding) => finding.code.startsWith(code));
}
