// Routes: every way from a source's output through legs and connections to a driver, before any setting is looked at.

import type { Connection, Room } from '../../schema/model/room.ts';
import { type Leg, legsBefore, legsFrom, legsOf } from './leg.ts';
import { signalNodes } from './node.ts';
import { samePort } from './port.ts';

export type Wired = Pick<Room, 'devices' | 'subwoofers' | 'speakers' | 'wiring'>;

export interface Route {
  readonly source: { readonly device: string; readonly port: string };
  readonly target: string;
  readonly legs: readonly Leg[];
  /** Indices into `room.wiring`. */
  readonly connections: readonly number[];
}

export interface Routes {
  readonly routes: readonly Route[];
  /** Nodes whose gear file draws no paths, so that their ports' names had to tell. */
  readonly guessed: readonly string[];
  /** True where there were more routes than anyone wires, and the rest was left out. */
  readonly cutShort: boolean;
}

/** More than any room has (24 channels to 4 subs by 3 ways are 288); keeps a hostile file in bounds. */
const MOST_ROUTES = 1000;
const MOST_STEPS = 30_000;

/** Follows the signal from each source output, depth first, in the order of the wiring. */
export function findRoutes(room: Wired): Routes {
  const graph = graphOf(room);
  const found: Found = { routes: [], stepCount: 0 };
  const started = new Set<string>();
  for (const connection of room.wiring) {
    const { device, port } = connection.from;
    const key = `${device} ${port}`;
    if (started.has(key) || !graph.isSource(device)) continue;
    started.add(key);
    const legs = legsBefore(graph.legsOf(device), port);
    const walk = { source: connection.from, legs, connections: [], seen: new Set<string>() };
    leave(graph, found, walk, device, port);
  }
  return {
    routes: found.routes,
    guessed: graph.guessed,
    cutShort: isFull(found),
  };
}

interface Graph {
  readonly legsOf: (id: string) => readonly Leg[];
  readonly guessed: readonly string[];
  readonly leaving: (id: string) => readonly Connection[];
  readonly isSource: (id: string) => boolean;
  readonly isInterface: (id: string) => boolean;
}

function graphOf(room: Wired): Graph {
  const nodes = new Map(signalNodes(room).map((node) => [node.id, node]));
  const leaving = new Map<string, Connection[]>();
  const arriving = new Map<string, Connection[]>();
  for (const connection of room.wiring) {
    if (!nodes.has(connection.from.device) || !nodes.has(connection.to.device)) continue;
    push(leaving, connection.from.device, connection);
    push(arriving, connection.to.device, connection);
  }
  const legs = new Map<string, readonly Leg[]>();
  const guessed: string[] = [];
  for (const node of nodes.values()) {
    const inputs = distinct((arriving.get(node.id) ?? []).map(({ to }) => to.port));
    const outputs = distinct((leaving.get(node.id) ?? []).map(({ from }) => from.port));
    const found = legsOf(node, inputs, outputs);
    legs.set(node.id, found.legs);
    if (found.guessed) guessed.push(node.id);
  }
  const isInterface = (id: string) => nodes.get(id)?.gear?.kind === 'interface';
  return {
    legsOf: (id) => legs.get(id) ?? [],
    guessed,
    leaving: (id) => leaving.get(id) ?? [],
    isSource: (id) => isInterface(id) || (nodes.has(id) && !arriving.has(id)),
    isInterface,
  };
}

interface Found {
  readonly routes: Route[];
  stepCount: number;
}

interface Walk {
  readonly source: Route['source'];
  readonly legs: readonly Leg[];
  readonly connections: readonly number[];
  /** Inputs and buses passed so far. */
  readonly seen: ReadonlySet<string>;
}

/** From an output port along every connection that leaves it. */
function leave(graph: Graph, found: Found, walk: Walk, id: string, port: string): void {
  for (const { index, to } of leavingPort(graph.leaving(id), port)) {
    const key = `${to.device} ${to.port}`;
    // Back where the signal has been, or into an interface, whose own outputs are where signal starts.
    if (walk.seen.has(key) || graph.isInterface(to.device)) continue;
    const seen = new Set(walk.seen).add(key);
    const connections = [...walk.connections, index];
    enter(graph, found, { ...walk, connections, seen }, to.device, to.port);
  }
}

/** Connections of exactly this port before those of all the channels of a network port. */
function leavingPort(leaving: readonly Connection[], port: string): readonly Connection[] {
  const exact = leaving.filter(({ from }) => from.port === port);
  return 0 < exact.length ? exact : leaving.filter(({ from }) => samePort(port, from.port));
}

/** From an input port or a bus along every leg that goes on from it. */
function enter(graph: Graph, found: Found, walk: Walk, id: string, port: string): void {
  for (const leg of legsFrom(graph.legsOf(id), port)) {
    if (isFull(found)) return;
    found.stepCount += 1;
    const legs = [...walk.legs, leg];
    if (leg.end === 'driver') {
      found.routes.push({ source: walk.source, target: id, legs, connections: walk.connections });
    } else if (leg.end === 'output') {
      leave(graph, found, { ...walk, legs }, id, leg.to);
    } else {
      const key = `${id} bus ${leg.to}`;
      if (walk.seen.has(key)) continue;
      enter(graph, found, { ...walk, legs, seen: new Set(walk.seen).add(key) }, id, leg.to);
    }
  }
}

function isFull({ routes, stepCount }: Found): boolean {
  return MOST_ROUTES <= routes.length || MOST_STEPS <= stepCount;
}

function push<Value>(lists: Map<string, Value[]>, key: string, value: Value): void {
  const list = lists.get(key);
  if (list) list.push(value);
  else lists.set(key, [value]);
}

function distinct(ports: readonly string[]): readonly string[] {
  return [...new Set(ports)];
}
