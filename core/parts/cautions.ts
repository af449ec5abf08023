// Part of Setup: the cautions that go on the sheet: those that this room's gear and circuits call for, in plain sentences.
//
// They defer to local codes and licensed people on purpose: nothing here says how such work is done.

import type { Room, Speaker } from '../../schema/model/room.ts';
import { placedSources, referenceSeat, type Sounding } from './referenceSeat.ts';

/** From this mass on two people lift: common practice, no source (ISO 11228-1 takes 25 kg as the reference mass, from memory). */
export const TWO_PEOPLE_KG = 25;
/** A loudspeaker whose centre is higher than this hangs or stands over people. */
export const OVERHEAD_M = 1.9;

/** In the order in which the work is done; empty for a room without gear. */
export function cautionsPart(
  room: Sounding & Pick<Room, 'devices' | 'circuits' | 'seats'>,
): readonly string[] {
  const all = [...room.speakers, ...room.subwoofers];
  if (all.length === 0 && room.devices.length === 0) return [];
  const cautions = [
    'Mains wiring and circuits are work for licensed people, by the local code. Never lift or defeat the protective earth to cure hum.',
  ];
  if (0 < room.circuits.length) {
    cautions.push(
      'The circuit figures are estimates from data sheets: a licensed person decides what a circuit may carry.',
    );
  }
  const overhead = overheadIds(room);
  if (0 < overhead.length) {
    cautions.push(
      `Overhead: ${overhead.join(', ')}. A qualified person designs the fixing, a competent person installs and inspects it: load-rated hardware, a design factor of at least 5, a second independent suspension, and more where the local code asks for it.`,
    );
  }
  const heavy = all.filter(isHeavy).map(({ id }) => id);
  if (0 < heavy.length) {
    cautions.push(
      `Heavy (over ${TWO_PEOPLE_KG} kg): ${heavy.join(', ')}. Two people or a lifting aid; secure what can topple.`,
    );
  }
  cautions.push(
    'Turn down or mute before plugging, patching or changing presets. Sources on first, loudspeakers last; off in reverse.',
    'Hearing: start test signals at least 20 dB below the reference level, people out of the room or protected, and keep to the local limits for noise at work.',
  );
  return cautions;
}

/** Loudspeakers above head height, and subwoofers that hang. */
export function overheadIds(room: Sounding & Pick<Room, 'seats'>): readonly string[] {
  const ear_m = referenceSeat(room)?.at?.z_m ?? 0;
  return placedSources(room)
    .filter(({ at }) => Math.max(OVERHEAD_M, ear_m) < at.z_m)
    .map(({ id }) => id);
}

export function isHeavy({ gear }: Speaker): boolean {
  return gear !== null && gear.mass_kg !== null && TWO_PEOPLE_KG < gear.mass_kg;
}
