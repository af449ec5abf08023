// Circuits, sets and cables: who belongs to each, with wrong names told.

import type { Cable, Circuit, SpeakerSet } from '../model/room.ts';
import { deviceAndPort, wordIn } from './arrow.ts';
import { referLayout } from './channels.ts';
import { below, entriesOf, itemsOf, type Place, scalarOf } from './place.ts';
import { referAnyPort } from './ports.ts';
import { isFaulty, type Reading } from './reading.ts';
import { type Names, referTo, referWord } from './referTo.ts';
import type { Scope } from './scope.ts';
import { si } from './values.ts';

export function readCircuits(reading: Reading, place: Place, scope: Scope): readonly Circuit[] {
  return entriesOf(place).map((entry) => ({
    id: entry.name,
    rating_a: si(reading, below(entry, 'rating'), 'current', 'needed'),
    voltage_v: si(reading, below(entry, 'voltage'), 'voltage', 'needed'),
    feeds: members(reading, below(entry, 'feeds'), scope.userNames.any),
  }));
}

export function readSets(reading: Reading, place: Place, scope: Scope): readonly SpeakerSet[] {
  return entriesOf(place).map((entry) => ({
    id: entry.name,
    speakers: members(reading, below(entry, 'speakers'), scope.userNames.speakers),
    subwoofers: members(reading, below(entry, 'subwoofers'), scope.userNames.subwoofers),
    layout: referLayout(reading, below(entry, 'layout'), scope.context, 'optional'),
  }));
}

/** Runs with both ends and a length; of the others the names are looked at. */
export function readCables(reading: Reading, place: Place, scope: Scope): readonly Cable[] {
  return entriesOf(place).flatMap((entry): readonly Cable[] => {
    const from = referDeviceOrPort(reading, below(entry, 'from'), scope);
    const to = referDeviceOrPort(reading, below(entry, 'to'), scope);
    const length_m = si(reading, below(entry, 'length'), 'length', 'optional');
    if (from === null || to === null || length_m === null) return [];
    return [{ id: entry.name, from, to, length_m }];
  });
}

/**
 * `desk` or `desk.main_left`.
 *
 * @returns the thing's id; null where there is none of that name
 */
export function referDeviceOrPort(reading: Reading, place: Place, scope: Scope): string | null {
  const scalar = scalarOf(place);
  if (scalar === null || scalar.text === 'unknown' || isFaulty(reading, place.path)) return null;
  const whole = wordIn(scalar, reading.file.text, 0, scalar.text);
  const parts = deviceAndPort(whole) ?? { device: whole, port: null };
  const { device, port } = parts;
  const word = { id: device.text, range: device.range, path: place.path };
  if (!referWord(reading, word, scope.userNames.any)) return null;
  const user = scope.users.get(device.text);
  if (user !== undefined && port !== null) referAnyPort(reading, place, user, port);
  return device.text;
}

/** The members of a list that there are; the others are told. */
export function members(reading: Reading, place: Place, names: Names): readonly string[] {
  return itemsOf(place)
    .map((item) => referTo(reading, item, names))
    .filter((id) => id !== null);
}
