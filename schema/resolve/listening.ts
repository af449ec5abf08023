// Listening checks: what was played, what was listened for, how it came out.

import type { ListeningCheck } from '../model/sessions.ts';
import { below, entriesOf, type Place, textOf } from './place.ts';
import { type Reading, startReading } from './reading.ts';
import type { Scope } from './scope.ts';
import { referenceLevel } from './targets.ts';
import { oneOf } from './values.ts';

export function readListening(reading: Reading, place: Place): readonly ListeningCheck[] {
  return entriesOf(place).map((check) => ({
    id: check.name,
    path: check.path,
    play: textOf(below(check, 'play')),
    listenFor: textOf(below(check, 'listen_for')),
    level: referenceLevel(reading, below(check, 'level'), 'optional'),
    result: oneOf(reading, below(check, 'result'), ['good', 'doubtful', 'bad'], 'optional'),
    date: textOf(below(check, 'date')),
    by: textOf(below(check, 'by')),
    setup: textOf(below(check, 'setup')),
  }));
}

/** What the facility asks every room for; what is wrong there is told in its own file. */
export function readAskedListening({ facility }: Scope): readonly ListeningCheck[] {
  if (facility === null) return [];
  return readListening(startReading(facility.file.parsed, null), below(facility.root, 'listening'));
}
