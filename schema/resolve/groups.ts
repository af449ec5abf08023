// Circuits, sets and cables: who belongs to each, with wrong names told.

import type { Circuit, SpeakerSet } from '../model/room.ts';
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

/** Cables are for the sheet; only the names at their ends are looked at here. */
export function checkCables(reading: Reading, place: Place, scope: Scope): void {
  for (const entry of entriesOf(place))
    for (const end of ['from', 'to']) referDeviceOrPort(reading, below(entry, end), scope);
}

/** `desk` or `desk.main_left`. */
export function referDeviceOrPort(reading: Reading, place: Place, scope: Scope): void {
  const scalar = scalarOf(place);
  if (scalar === null || scalar.text === 'unknown' || isFaulty(reading, place.path)) return;
  const whole = wordIn(scalar, reading.file.text, 0, scalar.text);
  const parts = deviceAndPort(whole) ?? { device: whole, port: null };
  const { device, port } = parts;
  const word = { id: device.text, range: device.range, path: place.path };
  if (!referWord(reading, word, scope.userNames.any) || port === null) return;
  const user = scope.users.get(device.text);
  if (user !== undefined) referAnyPort(reading, place, user, port);
}

/** The members of a list that there are; the others are told. */
export function members(reading: Reading, place: Place, names: Names): readonly string[] {
  return itemsOf(place)
    .map((item) => referTo(reading, item, names))
    .filter((id) => id !== null);
}
