// Loops: connections by which a signal comes back to where it has been, whether or not any source feeds them.

import { legsFrom, legsOf } from './leg.ts';
import { signalNodes } from './node.ts';
import { samePort } from './port.ts';
import type { Wired } from './route.ts';

/**
 * Depth first over ports; a connection that leads to a port still being followed closes a loop.
 *
 * @returns for each loop the indices of its connections in the order of the signal, the closing one last
 */
export function findLoops(room: Wired): readonly (readonly number[])[] {
  const next = followers(room);
  const state = new Map<number, 'open' | 'done'>();
  const loops: number[][] = [];
  const follow = (start: number): void => {
    // A stack of our own: a hostile file may chain more devices than the machine's stack holds.
    const stack = [{ index: start, rest: [...next(start)] }];
    state.set(start, 'open');
    while (0 < stack.length) {
      const top = stack[stack.length - 1];
      const following = top?.rest.shift();
      if (top === undefined) return;
      if (following === undefined) {
        state.set(top.index, 'done');
        stack.pop();
      } else if (state.get(following) === 'open') {
        const open = stack.map(({ index }) => index);
        loops.push(open.slice(open.indexOf(following)));
      } else if (!state.has(following)) {
        state.set(following, 'open');
        stack.push({ index: following, rest: [...next(following)] });
      }
    }
  };
  for (const { index } of room.wiring) if (!state.has(index)) follow(index);
  return loops;
}

/** For each connection those that carry its signal on from the device it ends at. */
function followers(room: Wired): (index: number) => readonly number[] {
  const byIndex = new Map(room.wiring.map((connection) => [connection.index, connection]));
  const nodes = new Map(signalNodes(room).map((node) => [node.id, node]));
  const legs = new Map(
    [...nodes.values()].map((node) => {
      const inputs = room.wiring.filter(({ to }) => to.device === node.id);
      const outputs = room.wiring.filter(({ from }) => from.device === node.id);
      const ports = [
        inputs.map(({ to }) => to.port),
        outputs.map(({ from }) => from.port),
      ] as const;
      return [node.id, legsOf(node, [...new Set(ports[0])], [...new Set(ports[1])]).legs];
    }),
  );
  return (index) => {
    const to = byIndex.get(index)?.to;
    if (to === undefined || nodes.get(to.device)?.gear?.kind === 'interface') return [];
    const outputs = reachedOutputs(legs.get(to.device) ?? [], to.port);
    return room.wiring
      .filter(({ from }) => from.device === to.device && isAny(outputs, from.port))
      .map((connection) => connection.index);
  };
}

function reachedOutputs(legs: ReturnType<typeof legsOf>['legs'], input: string): Set<string> {
  const outputs = new Set<string>();
  const seen = new Set([input]);
  for (const port of seen) {
    for (const { end, to } of legsFrom(legs, port)) {
      if (end === 'output') outputs.add(to);
      if (end === 'bus') seen.add(to);
    }
  }
  return outputs;
}

function isAny(outputs: ReadonlySet<string>, wired: string): boolean {
  return [...outputs].some((drawn) => samePort(drawn, wired));
}
