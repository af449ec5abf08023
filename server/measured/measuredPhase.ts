// The third phase as the session sees it: each analysis goes through it, and comes back with as much of its takes as is known.

import { measuredFigures, type Recording } from '../../core/measured/measuredOf.ts';
import { NOTHING_READ, type TakeReading } from '../../core/measured/takeReading.ts';
import { createJudge } from '../../core/rules/judge.ts';
import type { Analysis } from '../analysis.ts';
import type { Files } from '../files/files.ts';
import { hasTakes } from './measuredEntry.ts';
import { mergedMeasured } from './mergedMeasured.ts';
import { takeFilesOf } from './takeFilesOf.ts';
import { MOST_TAKES, requestsOf, type TakeRequest } from './takeRequests.ts';

export interface MeasuredPhase {
  /** Never waits: with the takes that are known by now; others are begun where they are needed. */
  readonly known: (analysis: Analysis, today: string) => Analysis;
  /** Waits until all takes are read and held against the plan. */
  readonly whole: (analysis: Analysis, today: string) => Promise<Analysis>;
  readonly changedOnDisk: (uris: readonly string[]) => void;
  readonly forget: (uri: string) => void;
}

/** Without it: for whoever needs no takes. */
export const NO_MEASURED: MeasuredPhase = {
  known: (analysis) => analysis,
  whole: (analysis) => Promise.resolve(analysis),
  changedOnDisk: () => undefined,
  forget: () => undefined,
};

/**
 * Reads the takes only when asked for the whole, and then at once: for the command line.
 *
 * @param begun told before a take is read, which may take seconds
 */
export function measuredAtOnce(files: Files, begun: (name: string) => void): MeasuredPhase {
  const known = new WeakMap<Analysis, Analysis>();
  return {
    ...NO_MEASURED,
    whole: async (analysis, today) => {
      const last = known.get(analysis);
      if (last) return last;
      const whole = await wholeOf(analysis, today, files, begun);
      known.set(analysis, whole);
      return whole;
    },
  };
}

async function wholeOf(
  analysis: Analysis,
  today: string,
  files: Files,
  begun: (name: string) => void,
): Promise<Analysis> {
  const { setup } = analysis;
  const sessions = setup?.room.sessions ?? [];
  if (setup === null || !hasTakes(analysis)) return analysis;
  const requestsIn = requestsOf(analysis);
  const readings = new Map<Recording, TakeReading>();
  for (const session of sessions)
    for (const { recording, request } of requestsIn(session)) {
      const wanted = readings.size < MOST_TAKES ? request : null;
      if (wanted !== null) begun(wanted.file.name);
      readings.set(recording, wanted === null ? NOTHING_READ : await readingOf(wanted, files));
    }
  const measured = measuredFigures(setup.room, (one) => readings.get(one) ?? NOTHING_READ);
  if (measured === null) return analysis;
  const { verified } = await import('../../core/measured/verified.ts');
  const verification = verified({ ...setup, measured });
  return mergedMeasured(analysis, measured, verification, today, createJudge());
}

async function readingOf(request: TakeRequest, files: Files): Promise<TakeReading> {
  const found = await takeFilesOf(request, files);
  if (found.files === null) return { ...NOTHING_READ, faults: found.faults };
  const { readTake } = await import('./readTake.ts');
  const reading = readTake(found.files);
  return { ...reading, faults: [...reading.faults, ...found.faults] };
}
