// The small test room with takes, worked out whole: for tests of what people see of them.

import type { Analysis } from '../../server/analysis.ts';
import { fieldAtOnce } from '../../server/field/fieldPhase.ts';
import { measuredAtOnce } from '../../server/measured/measuredPhase.ts';
import { createSession } from '../../server/session.ts';
import {
  FACILITY,
  FACILITY_TEXT,
  FOLDER,
  GEAR,
  GEAR_TEXT,
  ROOM,
  ROOM_TEXT,
  TODAY,
} from '../server/support/facility.ts';
import { memoryFiles } from '../server/support/memoryFiles.ts';
import { roomImpulse, wavOf } from './takeBytes.ts';

/** 1.40 m and 1.21 m off: 1.398 m, 4.07 ms of flight, and a millisecond in desk, subwoofer and loudspeaker each. */
export const LEFT_ARRIVES_S = 0.0075;

export const SESSIONS = `sessions:
  autumn:
    date: 2026-11-03
    takes:
      left: { file: takes/left.wav, drive: L, sounding: [left], seat: mix, timing: loopback }
      sub_text: { file: takes/sub.txt, drive: L, sounding: [sub], seat: mix }
      broken: { file: takes/broken.wav, drive: R, sounding: [right], seat: mix }
    averages:
      alone: { takes: [left], by: vector }
      with_broken: { takes: [left, broken], by: power }
`;

/**
 * @param sessions what stands below the text of the small test room
 * @param more files by their names in the folder `takes`
 */
export function measuredRoom(
  sessions: string = SESSIONS,
  more: Readonly<Record<string, Uint8Array>> = {},
): Promise<Analysis> {
  if (sessions !== SESSIONS || 0 < Object.keys(more).length) return workedOut(sessions, more);
  usual ??= workedOut(sessions, more);
  return usual;
}

/** Of the sessions above: worked out once for all tests that one worker runs. */
let usual: Promise<Analysis> | null = null;

async function workedOut(
  sessions: string,
  more: Readonly<Record<string, Uint8Array>>,
): Promise<Analysis> {
  const room = ROOM_TEXT + sessions;
  const folder = `${FOLDER}/rooms/takes`;
  const texts = new Map([
    [GEAR, GEAR_TEXT],
    [FACILITY, FACILITY_TEXT],
    [ROOM, room],
    [`${folder}/sub.txt`, '20 70\n31.5 80\n63 82\n125 70\n250 40\n'],
    [`${folder}/broken.wav`, 'RIFF'],
  ]);
  const sounds = new Map([
    [`${folder}/left.wav`, wavOf([roomImpulse(LEFT_ARRIVES_S, 0.5)])],
    ...Object.entries(more).map(([name, bytes]) => [`${folder}/${name}`, bytes] as const),
  ]);
  const files = memoryFiles(texts, sounds);
  const session = createSession(
    files,
    () => TODAY,
    null,
    fieldAtOnce(() => undefined),
    measuredAtOnce(files, () => undefined),
  );
  session.setFolders([FOLDER]);
  session.open(ROOM, 1, room, 'groundbass-room');
  const analysis = await session.whole(ROOM);
  if (analysis === null) throw new RangeError('the room was not read');
  return analysis;
}
