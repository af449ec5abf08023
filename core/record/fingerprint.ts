// The fingerprint of a set-up, `s-` and five groups of four digits, a group for each part: what it was, and which part of it changed.

import type { Path } from '../../schema/model/path.ts';
import { MATERIALS } from '../acoustics/materials.ts';
import { canonicalText } from './canonical.ts';
import { digest16, digest32 } from './fnv.ts';
import { materialsIn } from './roomParts.ts';
import { type RoomOfPart, SETUP_PARTS, type SetupPart, setupPart } from './setupParts.ts';

export interface Fingerprint {
  /** `s-3f9a-07c2-b81d-e450-1a2b`; null while a part cannot be read. */
  readonly text: string | null;
  /** In the order of the digits; null where the part cannot be read. */
  readonly parts: readonly { readonly part: SetupPart; readonly digits: string | null }[];
  /** The short form, of the whole: it tells that something changed, not what. */
  readonly short: string | null;
}

/** What a written fingerprint says of the set-up as it is now. */
export interface Agreement {
  /** `unknown` where nothing that can be read differs, and something cannot be read. */
  readonly agrees: 'yes' | 'no' | 'unknown';
  /** The parts that differ; empty for a short one, which cannot tell. */
  readonly changed: readonly SetupPart[];
}

/** The canonical text of each part; null where it cannot be read. */
export type PartTexts = Readonly<Record<SetupPart, string | null>>;

/** One in 65 536 changes of a part leaves its four digits as they were. */
export function fingerprint(texts: PartTexts): Fingerprint {
  const parts = SETUP_PARTS.map((part) => {
    const text = texts[part];
    return { part, digits: text === null ? null : digest16(text) };
  });
  if (parts.some(({ digits }) => digits === null)) return { text: null, parts, short: null };
  const whole = SETUP_PARTS.map((part) => `${part}\n${texts[part]}`).join('\n');
  return {
    text: `s-${parts.map(({ digits }) => digits).join('-')}`,
    parts,
    short: `s-${digest32(whole)}`,
  };
}

/** The same of a room. */
export function roomFingerprint(room: RoomOfPart): Fingerprint {
  const unread = unreadParts(room);
  const text = (part: SetupPart): string | null =>
    unread.has(part) ? null : canonicalText(setupPart(part, room));
  return fingerprint({
    room: text('room'),
    places: text('places'),
    gear: text('gear'),
    wiring: text('wiring'),
    settings: text('settings'),
  });
}

/** @param written as it stands in the file, in either form */
export function agreement(written: string, { parts, short }: Fingerprint): Agreement {
  const digits = written.split('-').slice(1);
  if (digits.length !== SETUP_PARTS.length) {
    const agrees = short === null ? 'unknown' : short === written ? 'yes' : 'no';
    return { agrees, changed: [] };
  }
  const changed = parts
    .filter((one, index) => one.digits !== null && one.digits !== digits[index])
    .map(({ part }) => part);
  if (0 < changed.length) return { agrees: 'no', changed };
  return { agrees: parts.some((one) => one.digits === null) ? 'unknown' : 'yes', changed };
}

/** The parts in which two fingerprints differ; null where one of them is short: then only that they differ can be told. */
export function changedParts(one: string, other: string): readonly SetupPart[] | null {
  if (one === other) return [];
  const [digits, others] = [one, other].map((text) => text.split('-').slice(1));
  if (digits?.length !== SETUP_PARTS.length || others?.length !== SETUP_PARTS.length) return null;
  return SETUP_PARTS.filter((_, index) => digits[index] !== others[index]);
}

type Unread = Pick<
  RoomOfPart,
  'space' | 'faulty' | 'speakers' | 'subwoofers' | 'devices' | 'settings'
>;

/**
 * Parts with a fault in them: a half-typed number is no change of the room. Gear that was named and not found leaves the gear and
 * what its settings mean open, a material of no known name the room.
 */
export function unreadParts({
  space,
  faulty = [],
  speakers,
  subwoofers,
  devices,
  settings,
}: Unread): ReadonlySet<SetupPart> {
  const unread = new Set<SetupPart>();
  for (const path of faulty) for (const part of partsAt(path)) unread.add(part);
  const lost = [...speakers, ...subwoofers, ...devices].filter(
    ({ gear, gearId }) => gear === null && gearId !== null,
  );
  if (materialsIn(space).some((material) => !MATERIALS.has(material))) unread.add('room');
  if (0 < lost.length) unread.add('gear');
  if (lost.some(({ id }) => settings.some(({ device }) => device === id))) unread.add('settings');
  return unread;
}

/** The parts that a place of the file belongs to. */
function partsAt([section, name, key]: Path): readonly SetupPart[] {
  switch (section) {
    case 'space':
      return NOT_OF_THE_SETUP.includes(name ?? '') ? [] : ['room'];
    case 'seats':
      return ['places'];
    case 'speakers':
    case 'subwoofers':
      if (key === undefined) return ['places', 'gear', 'wiring'];
      return key === 'gear' || key === 'item'
        ? ['gear']
        : key === 'channel'
          ? ['wiring']
          : ['places'];
    case 'devices':
      if (key === undefined) return ['gear', 'wiring'];
      return key === 'channels' ? ['wiring'] : ['gear'];
    case 'wiring':
    case 'sets':
      return ['wiring'];
    case 'settings':
      return ['settings'];
    case undefined:
      return SETUP_PARTS;
    default:
      return [];
  }
}

/** Of `space`: the air and what was measured. */
const NOT_OF_THE_SETUP: readonly string[] = ['air', 'decay_time', 'background_noise'];
