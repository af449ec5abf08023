// What the room is to reach: layout, reference level, monitor control, curve.

import type { ResolveContext } from '../model/resolved.ts';
import type { Targets } from '../model/room.ts';
import { referLayout } from './channels.ts';
import { below, mapOf, type Place, textOf } from './place.ts';
import type { Reading } from './reading.ts';
import { missing, type Need, quantity, si, spectrum, text } from './values.ts';

export function readTargets(reading: Reading, place: Place, context: ResolveContext): Targets {
  const control = below(place, 'monitor_control');
  return {
    layout: referLayout(reading, below(place, 'layout'), context, 'needed'),
    referenceLevel: referenceLevel(reading, below(place, 'reference_level'), 'needed'),
    monitorControl:
      mapOf(control) === null
        ? null
        : { position: text(reading, below(control, 'position'), 'optional') },
    curve: curve(reading, below(place, 'curve')),
  };
}

export function referenceLevel(
  reading: Reading,
  place: Place,
  need: Need,
): Targets['referenceLevel'] {
  const told = quantity(reading, place, ['sound_level'], need);
  if (told === null) return null;
  const weighting = told.unit === 'dBA' ? 'A' : told.unit === 'dBC' ? 'C' : 'Z';
  return { level_db: told.value, weighting };
}

function curve(reading: Reading, place: Place): Targets['curve'] {
  if (mapOf(place) === null) {
    missing(reading, place, 'optional');
    return null;
  }
  if (textOf(below(place, 'flat')) === 'true') return { frequency_hz: [], value: [] };
  const points = below(place, 'points');
  return spectrum(reading, points, (gain) => si(reading, gain, 'gain', 'optional'), 'optional');
}
