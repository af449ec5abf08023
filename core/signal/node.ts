// Nodes of the wiring graph: everything that signal passes, under the one namespace of ids.

import type { Gear } from '../../schema/model/gear.ts';
import type { Device, Room, Speaker } from '../../schema/model/room.ts';

/** A device, subwoofer or loudspeaker as the wiring sees it: without its place in the room. */
export interface SignalNode {
  readonly id: string;
  readonly role: 'device' | 'subwoofer' | 'speaker';
  readonly gear: Gear | null;
  /** The channel of a loudspeaker; null for all else. */
  readonly channel: string | null;
  /** What a device's outputs carry, where the file says so. */
  readonly channels: Device['channels'];
}

/** Devices, subwoofers, loudspeakers, each in the file's order. */
export function signalNodes({
  devices,
  subwoofers,
  speakers,
}: Pick<Room, 'devices' | 'subwoofers' | 'speakers'>): readonly SignalNode[] {
  return [
    ...devices.map(({ id, gear, channels }) => ({
      id,
      role: 'device' as const,
      gear,
      channel: null,
      channels,
    })),
    ...subwoofers.map((subwoofer) => transducer(subwoofer, 'subwoofer')),
    ...speakers.map((speaker) => transducer(speaker, 'speaker')),
  ];
}

function transducer({ id, gear, channel }: Speaker, role: 'subwoofer' | 'speaker'): SignalNode {
  return { id, role, gear, channel, channels: [] };
}
