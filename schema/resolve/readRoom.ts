// One room's parts, read from its tree one after the other: all of them, or those that an alternative changes.

import type { Habits } from '../model/quantities.ts';
import type { Room } from '../model/room.ts';
import { readCables, readCircuits, readSets } from './groups.ts';
import { readAskedListening, readListening } from './listening.ts';
import { below, type Place } from './place.ts';
import { readDevices, readSeats, readSpeakers } from './placed.ts';
import { readPolicy } from './policy.ts';
import type { Reading } from './reading.ts';
import { readAccepted, readNotes, readSignedOff } from './records.ts';
import type { Scope } from './scope.ts';
import type { ReadSection } from './sections.ts';
import { readSessions } from './sessions.ts';
import { readSettings } from './settings.ts';
import { readAir, readSpace } from './space.ts';
import { readTargets } from './targets.ts';
import { text } from './values.ts';
import { readWiring } from './wiring.ts';

/** @param section how a section is read that asks for no file and for nothing of others but their names */
export function readRoom(reading: Reading, root: Place, scope: Scope, section: ReadSection): Room {
  const targets = readTargets(reading, below(root, 'targets'), scope.context);
  const read = <Answer>(key: string, readIt: (reading: Reading, place: Place) => Answer): Answer =>
    section(reading, below(root, key), readIt);
  const cables = read('cables', (own, place) => readCables(own, place, scope));
  return {
    name: text(reading, below(root, 'name'), 'optional'),
    space: read('space', (own, place) => readSpace(own, place, scope)),
    air: readAir(reading, below(below(root, 'space'), 'air')),
    seats: read('seats', readSeats),
    speakers: readSpeakers(reading, 'speakers', scope),
    subwoofers: readSpeakers(reading, 'subwoofers', scope),
    devices: readDevices(reading, scope),
    wiring: read('wiring', (own, place) => readWiring(own, place, scope)),
    circuits: read('circuits', (own, place) => readCircuits(own, place, scope)),
    ...(cables.length === 0 ? {} : { cables }),
    settings: read('settings', (own, place) => readSettings(own, place, scope)),
    sets: read('sets', (own, place) => readSets(own, place, scope)),
    targets,
    policy: readPolicy(reading, root, targets, scope),
    accepted: readAccepted(reading, root, scope),
    sessions: readSessions(reading, below(root, 'sessions'), scope),
    listening: read('listening', readListening),
    askedListening: readAskedListening(scope),
    signedOff: readSignedOff(below(root, 'signed_off')),
    gaps: reading.gaps,
    plusMinus: reading.plusMinus,
    notes: readNotes(reading.file.root),
    habits: habitsOf(reading),
  };
}

/** Reads one part for the problems and references in it alone. */
export function readPart(reading: Reading, root: Place, scope: Scope, part: string): void {
  const place = below(root, part);
  switch (part) {
    case 'space':
      readSpace(reading, place, scope);
      break;
    case 'seats':
      readSeats(reading, place);
      break;
    case 'speakers':
    case 'subwoofers':
      readSpeakers(reading, part, scope);
      break;
    case 'devices':
      readDevices(reading, scope);
      break;
    case 'wiring':
      readWiring(reading, place, scope);
      break;
    case 'cables':
      readCables(reading, place, scope);
      break;
    case 'circuits':
      readCircuits(reading, place, scope);
      break;
    case 'settings':
      readSettings(reading, place, scope);
      break;
    case 'sets':
      readSets(reading, place, scope);
      break;
    case 'targets':
      readTargets(reading, place, scope.context);
      break;
  }
}

/** What is written most often; metric where nothing is. */
function habitsOf({ unitCounts }: Reading): Habits {
  const count = (...units: readonly string[]) =>
    units.reduce((sum, unit) => sum + (unitCounts.get(unit) ?? 0), 0);
  const metres = count('m', 'cm');
  const millimetres = count('mm');
  const feet = count('ft', 'in', "'", '"', 'ft in', '\'"');
  return {
    length:
      Math.max(metres, millimetres) < feet ? 'feet' : metres < millimetres ? 'millimetre' : 'metre',
    temperature: count('°C', 'K') < count('°F') ? 'fahrenheit' : 'celsius',
    mass: count('kg', 'g') < count('lb') ? 'pound' : 'kilogram',
  };
}
