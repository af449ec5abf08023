// Listening checks: what was played, what was listened for, how it came out.

import type { ListeningCheck } from '../model/sessions.ts';
import { below, entriesOf, type Place, textOf } from './place.ts';
import type { Reading } from './reading.ts';
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
  }));
}
