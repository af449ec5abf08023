// Values: quantities, points, spans and spectra of the file as SI numbers, with gaps where there are none.

import type { Path } from '../model/path.ts';
import { pathText } from '../model/path.ts';
import type { Point, Spectrum } from '../model/quantities.ts';
import { below, entriesOf, itemsOf, mapOf, type Place, scalarOf, textOf } from './place.ts';
import { isFaulty, type Reading, recordGap, tell } from './reading.ts';
import { type Si, type SiDimension, siOf } from './si.ts';

/** Whether a value that is not there is worth a word: `needed` values always are, others only if written. */
export type Need = 'needed' | 'optional';

/** A quantity in SI with what was written; null where there is none, with its gap recorded. */
export function quantity(
  reading: Reading,
  place: Place,
  dimensions: readonly SiDimension[],
  need: Need,
): Si | null {
  const text = textOf(place);
  const si = text === null || isFaulty(reading, place.path) ? null : siOf(text, dimensions);
  if (si === null) {
    missing(reading, place, need);
    return null;
  }
  if (si.plusMinus !== null) reading.plusMinus[pathText(place.path)] = si.plusMinus;
  reading.unitCounts.set(si.unit, (reading.unitCounts.get(si.unit) ?? 0) + 1);
  return si;
}

/** A quantity's SI number. */
export function si(
  reading: Reading,
  place: Place,
  dimension: SiDimension,
  need: Need,
): number | null {
  return quantity(reading, place, [dimension], need)?.value ?? null;
}

/** A plain number, such as a Q or an absorption coefficient. */
export function number(reading: Reading, place: Place, need: Need): number | null {
  const text = textOf(place);
  const value = text === null || text.trim() === '' ? Number.NaN : Number(text);
  if (Number.isFinite(value) && !isFaulty(reading, place.path)) return value;
  missing(reading, place, need);
  return null;
}

/** Text for people or a name, as written. */
export function text(reading: Reading, place: Place, need: Need): string | null {
  const value = isFaulty(reading, place.path) ? null : textOf(place);
  if (value === null) missing(reading, place, need);
  return value;
}

/** One of a few words that the format knows. */
export function oneOf<Word extends string>(
  reading: Reading,
  place: Place,
  words: readonly Word[],
  need: Need,
): Word | null {
  const value = textOf(place);
  const word = words.find((candidate) => candidate === value) ?? null;
  if (word === null) missing(reading, place, need);
  return word;
}

/** A point; null where one of its coordinates is missing, with that coordinate's gap recorded. */
export function point(reading: Reading, place: Place, need: Need): Point | null {
  if (mapOf(place) === null) {
    missing(reading, place, need);
    return null;
  }
  const x_m = si(reading, below(place, 'x'), 'length', 'needed');
  const y_m = si(reading, below(place, 'y'), 'length', 'needed');
  const z_m = si(reading, below(place, 'z'), 'length', 'needed');
  return x_m === null || y_m === null || z_m === null ? null : { x_m, y_m, z_m };
}

/** `[0 m, 0.95 m]`, from the smaller to the larger; one that runs backwards is told. */
export function span(reading: Reading, place: Place, need: Need): readonly [number, number] | null {
  const [first, second] = itemsOf(place);
  if (first === undefined || second === undefined) {
    missing(reading, place, need);
    return null;
  }
  const from_m = si(reading, first, 'length', 'needed');
  const to_m = si(reading, second, 'length', 'needed');
  if (from_m === null || to_m === null) return null;
  if (from_m <= to_m) return [from_m, to_m];
  tellBackwards(reading, place, first, second);
  return [to_m, from_m];
}

function tellBackwards(reading: Reading, place: Place, first: Place, second: Place): void {
  const [from, to] = [scalarOf(first), scalarOf(second)];
  if (from === null || to === null) return;
  tell(reading, place, {
    code: 'format/span-backwards',
    message: `From \`${from.text}\` to \`${to.text}\` runs backwards; the smaller value comes first`,
    fixes: [
      {
        title: 'Swap the two values',
        edits: [
          { range: from.range, text: reading.file.text.slice(to.range.start, to.range.end) },
          { range: to.range, text: reading.file.text.slice(from.range.start, from.range.end) },
        ],
        safe: true,
      },
    ],
  });
}

/** Values by frequency, ascending. Entries that cannot be read are left out, each with its gap. */
export function spectrum(
  reading: Reading,
  place: Place,
  readValue: (place: Place) => number | null,
  need: Need,
): Spectrum | null {
  if (mapOf(place) === null) {
    missing(reading, place, need);
    return null;
  }
  const points: { readonly frequency_hz: number; readonly value: number }[] = [];
  for (const entry of entriesOf(place)) {
    const frequency_hz = siOf(entry.name, ['frequency'])?.value ?? null;
    if (frequency_hz === null || !(0 < frequency_hz)) continue;
    const value = readValue(entry);
    if (value !== null) points.push({ frequency_hz, value });
  }
  points.sort((a, b) => a.frequency_hz - b.frequency_hz);
  return {
    frequency_hz: points.map(({ frequency_hz }) => frequency_hz),
    value: points.map(({ value }) => value),
  };
}

/** Records the gap of a value that is not there, if it is worth a word. */
export function missing(reading: Reading, place: Place, need: Need): void {
  if (
    need === 'needed' ||
    place.value !== null ||
    reading.faulty.some((path) => same(path, place.path))
  )
    recordGap(reading, place);
}

function same(a: Path, b: Path): boolean {
  return a.length === b.length && a.every((key, index) => b[index] === key);
}
