// The record part: the set-up's fingerprint, each part of it worked out anew only when it changed, and what still stands of the record.

import type { Room } from '../../schema/model/room.ts';
import { canonicalText } from '../record/canonical.ts';
import { type Fingerprint, fingerprint, unreadParts } from '../record/fingerprint.ts';
import { type RoomOfRecord, record } from '../record/record.ts';
import type { RecordFigures } from '../record/recordFigures.ts';
import { placesPart, roomPart } from '../record/roomParts.ts';
import type { RoomOfPart, SetupPart } from '../record/setupParts.ts';
import { gearPart, settingsPart, wiringPart } from '../record/signalParts.ts';
import { memoLast, memoPart } from './memo.ts';

type RoomOfRecordPart = RoomOfPart & RoomOfRecord;

/**
 * A worker for one file.
 *
 * @param wired loudspeakers and subwoofers without their places, of which gear and wiring ask nothing
 */
export function createRecordPart(): (
  room: RoomOfRecordPart,
  wired: Pick<Room, 'speakers' | 'subwoofers'>,
  today: string | null,
) => RecordFigures {
  const sources = ['speakers', 'subwoofers'] as const;
  const texts = {
    room: memoPart(['space'], (room) => canonicalText(roomPart(room))),
    places: memoPart(['seats', ...sources], (room) => canonicalText(placesPart(room))),
    gear: memoPart(['devices', ...sources], (room) => canonicalText(gearPart(room))),
    wiring: memoPart(['wiring', 'devices', 'sets', ...sources], (room) =>
      canonicalText(wiringPart(room)),
    ),
    settings: memoPart(['settings'], (room) => canonicalText(settingsPart(room))),
  };
  const unread = memoPart(['space', 'faulty', 'devices', 'settings', ...sources], unreadParts);
  const digest = memoLast((...[room, places, gear, wiring, settings]: Texts) =>
    fingerprint({ room, places, gear, wiring, settings }),
  );
  const recorded = memoPart(
    ['sessions', 'listening', 'askedListening', 'signedOff', 'policy'],
    (room, now: Fingerprint, today: string | null) => record(room, now, today),
  );
  return (room, sourcesOnly, today) => {
    const wired = { ...room, ...sourcesOnly };
    const faulty = unread(wired);
    const read = (part: SetupPart, text: string): string | null => (faulty.has(part) ? null : text);
    const now = digest(
      read('room', texts.room(room)),
      read('places', texts.places(room)),
      read('gear', texts.gear(wired)),
      read('wiring', texts.wiring(wired)),
      read('settings', texts.settings(room)),
    );
    return recorded(room, now, today);
  };
}

type Texts = readonly [string | null, string | null, string | null, string | null, string | null];
