// Signal steps: one neighbour to the next along the signal's way, from thing to thing or from port to port.

import type { Setup } from '../../core/setup.ts';

/** A speaker, subwoofer or device; or one port of it. */
export interface SignalNode {
  readonly id: string;
  readonly port: string | null;
}

export interface SignalStep {
  readonly from: SignalNode;
  readonly to: SignalNode;
  /** Its place in `wiring`; inside a device that of the arrow that leads there. */
  readonly connection: number;
}

/**
 * Every arrow of `wiring`; port by port also what leads through the devices: from an input to the outputs and the driver that its
 * signal reaches.
 *
 * @param byThing whole things instead of ports
 * @returns each step once, in the order of the wiring
 */
export function signalSteps({ room, signalPaths }: Setup, byThing: boolean): readonly SignalStep[] {
  const wires = new Map(room.wiring.map((wire) => [wire.index, wire]));
  const arrows = room.wiring.map(
    ({ index, from, to }): SignalStep => ({
      from: { id: from.device, port: byThing ? null : from.port },
      to: { id: to.device, port: byThing ? null : to.port },
      connection: index,
    }),
  );
  if (byThing) return arrows;
  const inside = new Map<string, SignalStep>();
  for (const { connections, target } of signalPaths) {
    for (const [place, index] of connections.entries()) {
      const into = wires.get(index)?.to;
      if (into === undefined) continue;
      const next = wires.get(connections[place + 1] ?? -1)?.from;
      const to = next ? { id: next.device, port: next.port } : { id: target, port: null };
      const from = { id: into.device, port: into.port };
      const key = JSON.stringify([from, to]);
      if (!inside.has(key)) inside.set(key, { from, to, connection: index });
    }
  }
  return [...arrows, ...inside.values()];
}
