// Circuits, sets and cables: who belongs to each, with wrong names told.

import {
  CABLE_KINDS,
  type Cable,
  type CableEnd,
  type Circuit,
  type SpeakerSet,
} from '../model/room.ts';
import { deviceAndPort, wordIn } from './arrow.ts';
import { referLayout } from './channels.ts';
import { below, entriesOf, itemsOf, type Place, scalarOf } from './place.ts';
import { referAnyPort } from './ports.ts';
import { isFaulty, type Reading } from './reading.ts';
import { type Names, referTo, referWord } from './referTo.ts';
import type { Scope } from './scope.ts';
import { oneOf, si, text } from './values.ts';

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

/** Runs with both ends; of the others the names are looked at. */
export function readCables(reading: Reading, place: Place, scope: Scope): readonly Cable[] {
  return entriesOf(place).flatMap((entry): readonly Cable[] => {
    const from = referEnd(reading, below(entry, 'from'), scope);
    const to = referEnd(reading, below(entry, 'to'), scope);
    const length_m = si(reading, below(entry, 'length'), 'length', 'optional');
    const kind = oneOf(reading, below(entry, 'kind'), CABLE_KINDS, 'optional');
    const label = text(reading, below(entry, 'label'), 'optional');
    return from === null || to === null
      ? []
      : [{ id: entry.name, from, to, length_m, kind, label }];
  });
}

/**
 * `desk` or `desk.main_left`.
 *
 * @returns null where there is no thing of that name; a port that is not there is told, and left out
 */
export function referEnd(reading: Reading, place: Place, scope: Scope): CableEnd | null {
  const scalar = scalarOf(place);
  if (scalar === null || scalar.text === 'unknown' || isFaulty(reading, place.path)) return null;
  const whole = wordIn(scalar, reading.file.text, 0, scalar.text);
  const { device, port } = deviceAndPort(whole) ?? { device: whole, port: null };
  const word = { id: device.text, range: device.range, path: place.path };
  if (!referWord(reading, word, scope.userNames.any)) return null;
  const user = scope.users.get(device.text);
  const hasPort = user !== undefined && port !== null && referAnyPort(reading, place, user, port);
  return { device: device.text, port: hasPort ? port.text : null };
}

/** The members of a list that there are; the others are told. */
export function members(reading: Reading, place: Place, names: Names): readonly string[] {
  return itemsOf(place)
    .map((item) => referTo(reading, item, names))
    .filter((id) => id !== null);
}
