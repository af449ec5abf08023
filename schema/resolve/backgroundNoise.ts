// Background noise: a rating, a criterion, one level, or levels in bands, as numbers with their weighting.

import type { BackgroundNoise, NoiseLevel } from '../model/room.ts';
import { below, entriesOf, mapOf, type Place } from './place.ts';
import type { Reading } from './reading.ts';
import { siOf } from './si.ts';
import { missing, number, quantity } from './values.ts';

export function readBackgroundNoise(reading: Reading, place: Place): BackgroundNoise | null {
  if (mapOf(place) === null) {
    missing(reading, place, 'needed');
    return null;
  }
  return {
    nr: number(reading, below(place, 'nr'), 'optional'),
    nc: number(reading, below(place, 'nc'), 'optional'),
    level: noiseLevel(reading, below(place, 'level')),
    bands: bands(reading, below(place, 'bands')),
  };
}

function bands(reading: Reading, place: Place): NonNullable<BackgroundNoise['bands']> {
  if (mapOf(place) === null) missing(reading, place, 'optional');
  return entriesOf(place).flatMap((entry) => {
    const frequency_hz = siOf(entry.name, ['frequency'])?.value ?? null;
    if (frequency_hz === null || !(0 < frequency_hz)) return [];
    const told = noiseLevel(reading, entry);
    return told === null ? [] : [{ key: entry.name, frequency_hz, ...told }];
  });
}

function noiseLevel(reading: Reading, place: Place): NoiseLevel | null {
  const told = quantity(reading, place, ['sound_level'], 'optional');
  if (told === null) return null;
  const weighting = told.unit === 'dBA' ? 'A' : told.unit === 'dBC' ? 'C' : 'Z';
  return { level_db: told.value, weighting };
}
