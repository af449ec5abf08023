// What people have accepted: which acceptance covers a finding, and whether it has ended.

import type { Path } from '../../schema/model/path.ts';
import { pathText } from '../../schema/model/path.ts';
import type { Acceptance } from '../../schema/model/room.ts';
import { isOver } from './day.ts';

/** The first acceptance, in the file's order, that covers a finding and has not ended. */
export function acceptanceFor(
  accepted: readonly Acceptance[],
  code: string,
  path: Path,
  today: string | null,
): Acceptance | undefined {
  return accepted.find((one) => covers(one, code, path) && !hasEnded(one, today));
}

/** Whether an acceptance is about a finding: its code, at the place that it names or below; everywhere where it names none. */
export function covers({ finding, about }: Acceptance, code: string, path: Path): boolean {
  if (finding !== code) return false;
  const text = pathText(path);
  return about === null || text === about || text.startsWith(`${about}.`);
}

/** An acceptance holds to the end of its day. */
export function hasEnded({ until }: Acceptance, today: string | null): boolean {
  return until !== null && today !== null && isOver(until, today);
}
