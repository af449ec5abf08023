// Rule layout/azimuth: each loudspeaker stands in the direction that the layout asks for.

import type { Room } from '../../../schema/model/room.ts';
import { bearing, placeAt } from '../../acoustics/layoutAngles.ts';
import type { Fix } from '../../finding.ts';
import { beyondAzimuth_rad, isOverhead, ROUNDING_RAD } from '../../parts/layout.ts';
import { layoutTolerances } from '../../parts/layoutTolerances.ts';
import { moveFix } from '../places.ts';
import { defineRule, type Rule } from '../rule.ts';
import { nearest, type Position, type Stand, stands } from './layoutPath.ts';

interface Fact {
  readonly id: string;
  readonly channel: string;
  readonly seat: string;
  readonly azimuth_rad: number;
  readonly want_rad: readonly [number, number];
  readonly layout: string;
}

export const layoutAzimuth: Rule = defineRule<Fact>({
  code: 'layout/azimuth',
  severity: 'warning',
  title: 'Direction of a loudspeaker',
  reason: 'What is mixed here is heard elsewhere on loudspeakers in the standard directions.',
  advice: 'Move the loudspeaker along its circle round the seat, or move the seat.',
  source:
    'ITU-R BS.2051 (BS.775 for stereo and 5.1); tolerance ±2° in front and ±5° elsewhere: common practice, no source',

  *find(setup) {
    const { room } = setup;
    const all = stands(setup);
    for (const stand of all) {
      const { position, id, azimuth_rad, layout } = stand;
      const want_rad = position.wantAzimuth_rad;
      const tolerance_rad = layoutTolerances(room.policy, position).azimuth_rad;
      const off_rad = beyondAzimuth_rad(azimuth_rad, want_rad);
      if (off_rad <= tolerance_rad + ROUNDING_RAD) continue;
      if (isOverhead({ elevation_rad: position.wantElevation_rad })) continue;
      const { channel } = position;
      yield {
        path: ['speakers', id, 'at'],
        fact: { id, channel, seat: layout.seat, azimuth_rad, want_rad, layout: layout.layout },
        measured: { value: azimuth_rad, unit: 'rad' },
        limit: { value: wantNearest_rad(azimuth_rad, want_rad), unit: 'rad' },
        related: [
          { path: ['seats', layout.seat, 'at'], message: 'Directions are taken from this seat' },
        ],
        fixes: [...exchanged(room, stand, all), turned(room, stand)],
      };
    }
  },

  message({ id, channel, seat, azimuth_rad, want_rad, layout }, show) {
    const side = (angle_rad: number) =>
      `${show.angle(Math.abs(angle_rad))}${angle_rad === 0 ? '' : angle_rad < 0 ? ' right' : ' left'}`;
    const [low, high] = want_rad;
    const inner = Math.abs(low) <= Math.abs(high) ? low : high;
    const outer = inner === low ? high : low;
    const asked = low === high ? side(low) : `${show.angle(Math.abs(inner))} to ${side(outer)}`;
    return `${id} (${channel}) is at ${side(azimuth_rad)} from ${seat}, ${layout} asks for ${asked}`;
  },
});

/** Where another one of the layout stands in this one's direction and the other way about, their channels are exchanged. */
function exchanged(room: Room, stand: Stand, all: readonly Stand[]): readonly Fix[] {
  const fits = (one: Stand, position: Position) =>
    beyondAzimuth_rad(one.azimuth_rad, position.wantAzimuth_rad) <=
    layoutTolerances(room.policy, position).azimuth_rad + ROUNDING_RAD;
  const other = all.find(
    (one) => one.layout === stand.layout && fits(one, stand.position) && fits(stand, one.position),
  );
  const channelOf = (id: string) => room.speakers.find((one) => one.id === id)?.channel ?? null;
  const [own, its] = [channelOf(stand.id), other ? channelOf(other.id) : null];
  if (other === undefined || own === null || its === null) return [];
  return [
    {
      title: `Exchange the channels of ${stand.id} and ${other.id}`,
      edits: [
        { do: 'set', path: ['speakers', stand.id, 'channel'], value: its },
        { do: 'set', path: ['speakers', other.id, 'channel'], value: own },
      ],
      safe: false,
    },
  ];
}

/** At the same distance, in the nearest direction that the layout allows. */
function turned(room: Room, { id, at, ear, azimuth_rad, position }: Stand): Fix {
  const azimuth = wantNearest_rad(azimuth_rad, position.wantAzimuth_rad);
  const to = placeAt(ear, { ...bearing(ear, at), azimuth_rad: azimuth });
  return moveFix(room, ['speakers', id], at, to, `Turn ${id} into the layout's direction`);
}

/** The nearest allowed azimuth, also where the short way leads past the back. */
function wantNearest_rad(azimuth_rad: number, want_rad: readonly [number, number]): number {
  const turn = 2 * Math.PI;
  const [best = azimuth_rad] = [azimuth_rad, azimuth_rad - turn, azimuth_rad + turn].toSorted(
    (a, b) => Math.abs(a - nearest(a, want_rad)) - Math.abs(b - nearest(b, want_rad)),
  );
  return nearest(best, want_rad);
}
