// Seats, speakers, subwoofers and devices as the computations take them.

import type { Device, Seat, Speaker } from '../model/room.ts';
import { referChannel } from './channels.ts';
import { below, entriesOf, mapOf, type Place, textOf } from './place.ts';
import { referAnyPort } from './ports.ts';
import type { Reading } from './reading.ts';
import { type Names, referTo } from './referTo.ts';
import type { Scope } from './scope.ts';
import { standNames, surfaceNames } from './surfaceNames.ts';
import type { Section, User } from './users.ts';
import { point } from './values.ts';

export function readSeats(reading: Reading, place: Place): readonly Seat[] {
  const seats = entriesOf(place).map((seat) => ({
    id: seat.name,
    at: point(reading, below(seat, 'at'), 'needed'),
    role: textOf(below(seat, 'role')),
  }));
  const stated = seats.findIndex(({ role }) => role === 'reference');
  const reference = Math.max(stated, 0);
  return seats.map((seat, index) => ({ ...seat, isReference: index === reference }));
}

export function readSpeakers(
  reading: Reading,
  section: 'speakers' | 'subwoofers',
  scope: Scope,
): readonly Speaker[] {
  return usersOf(scope, section).map((user) => {
    const { place } = user;
    const aim = below(place, 'aim');
    const isPoint = mapOf(aim) !== null;
    return {
      ...gearOf(user),
      item: user.item,
      channel:
        section === 'speakers'
          ? referChannel(reading, below(place, 'channel'), scope.context, 'needed')
          : null,
      at: point(reading, below(place, 'at'), 'needed'),
      aim: isPoint ? null : referTo(reading, aim, seatNames(scope)),
      aimAt: isPoint ? point(reading, aim, 'optional') : null,
      flushIn: mount(reading, below(place, 'mount'), scope),
    };
  });
}

export function readDevices(reading: Reading, scope: Scope): readonly Device[] {
  return usersOf(scope, 'devices').map((user) => {
    const channels: { readonly port: string; readonly channel: string }[] = [];
    for (const entry of entriesOf(below(user.place, 'channels'))) {
      const word = { text: entry.name, range: entry.key };
      const isKnown = referAnyPort(reading, entry, user, word);
      const channel = referChannel(reading, entry, scope.context, 'needed');
      if (isKnown && channel !== null) channels.push({ port: entry.name, channel });
    }
    const at = point(reading, below(user.place, 'at'), 'optional');
    return { ...gearOf(user), channels, ...(at === null ? {} : { at }) };
  });
}

export function seatNames({ seats }: Scope): Names {
  return {
    code: 'reference/seat',
    kind: 'seat',
    lead: 'No seat is called',
    plural: 'seats',
    known: seats,
  };
}

function usersOf({ users }: Scope, section: Section): readonly User[] {
  return [...users.values()].filter((user) => user.section === section);
}

function gearOf({ id, model, gearId }: User) {
  return { id, gear: model?.gear ?? null, gearId };
}

/** What it is built into. How else it is mounted is for the sheet; only its names are looked at here. */
function mount(reading: Reading, place: Place, scope: Scope): string | null {
  if (place.key === null) return null;
  referTo(reading, below(place, 'hung_from'), surfaceNames(scope));
  referTo(reading, below(place, 'stands_on'), standNames(scope));
  return referTo(reading, below(place, 'flush_in'), surfaceNames(scope));
}
