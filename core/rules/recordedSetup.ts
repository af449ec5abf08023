// A recorded Setup: it reads like the Setup that it was made of, and tells which of its fields, and of its room's, were read.
//
// So no rule declares what it depends on, and none can forget to.

import type { Room, Speaker } from '../../schema/model/room.ts';
import type { Finding } from '../finding.ts';
import { PLACE_FIELDS } from '../parts/steadyRoom.ts';
import type { Setup } from '../setup.ts';

/** Fields by their names (`air`, `room.seats`), with what stood there. */
export type Fields = ReadonlyMap<string, unknown>;

export interface RecordedSetup {
  readonly setup: Setup;
  /** All fields that there are. */
  readonly fields: Fields;
  /** What was read while `act` ran. The findings so far are no field: they are read on the spot. */
  readonly during: <Answer>(act: () => Answer) => {
    readonly answer: Answer;
    readonly reads: Reads;
  };
}

export interface Reads {
  readonly fields: Fields;
  readonly findings: boolean;
}

/** Loudspeakers and subwoofers without their places: the same lists as long as nothing else of them changes. */
export type Placeless = Pick<Room, 'speakers' | 'subwoofers'>;

/**
 * @param findingsSoFar asked where a rule reads the findings of the rules before it
 * @param placeless where given, what reads no place of a loudspeaker does not depend on the places
 */
export function recordedSetup(
  given: Setup,
  findingsSoFar: () => readonly Finding[],
  placeless: Placeless | null,
): RecordedSetup {
  const fields = new Map<string, unknown>();
  let reads = new Map<string, unknown>();
  let hasReadFindings = false;

  /** Getters of the object's own, so that copies and lists of its keys hold the same as without recording. */
  function recorded<Of extends object>(of: Of, prefix: string, others: PropertyDescriptorMap): Of {
    const view = {};
    for (const [key, value] of Object.entries(of)) {
      const name = prefix + key;
      if (others[key] === undefined) fields.set(name, value);
      const get = (): unknown => {
        reads.set(name, value);
        return value;
      };
      Object.defineProperty(view, key, others[key] ?? { enumerable: true, get });
    }
    return view as Of; // The same keys, and behind each of them the same value.
  }

  function withoutPlaces(key: keyof Placeless, steady: readonly Speaker[]): PropertyDescriptor {
    const list = given.room[key];
    const [whole, without] = [`room.${key}`, `room.${key} without places`];
    fields.set(whole, list);
    fields.set(without, steady);
    const views = list.map((speaker) => {
      const view = { ...speaker };
      for (const field of PLACE_FIELDS) {
        const get = (): unknown => {
          reads.set(whole, list);
          return speaker[field];
        };
        Object.defineProperty(view, field, { enumerable: true, get });
      }
      return view;
    });
    const get = (): unknown => {
      reads.set(without, steady);
      return views;
    };
    return { enumerable: true, get };
  }

  const sounding: PropertyDescriptorMap =
    placeless === null
      ? {}
      : {
          speakers: withoutPlaces('speakers', placeless.speakers),
          subwoofers: withoutPlaces('subwoofers', placeless.subwoofers),
        };
  const room = recorded(given.room, 'room.', sounding);
  const findings = (): readonly Finding[] => {
    hasReadFindings = true;
    return findingsSoFar();
  };
  const setup = recorded(given, '', {
    room: { enumerable: true, value: room },
    findings: { enumerable: true, get: findings },
  });
  return {
    setup,
    fields,
    during: (act) => {
      reads = new Map();
      hasReadFindings = false;
      const answer = act();
      return { answer, reads: { fields: reads, findings: hasReadFindings } };
    },
  };
}

/** Whether all that was read stands there still, by identity. What read the findings is never sure of it. */
export function stillStands(reads: Reads, fields: Fields): boolean {
  if (reads.findings) return false;
  for (const [name, value] of reads.fields) if (fields.get(name) !== value) return false;
  return true;
}
