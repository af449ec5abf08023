// Legs: the ways through one device, as its gear file draws them, or as few as can be guessed where it draws none.

import type { SignalNode } from './node.ts';
import { samePort } from './port.ts';

/** The end of a leg that makes sound. */
export const DRIVER = 'driver';

/** One stretch inside a device: port or bus through stages to port, bus or `driver`. */
export interface Leg {
  readonly node: string;
  readonly from: string;
  readonly to: string;
  readonly stages: readonly string[];
  /** Where the leg ends: at an output, in a bus of the same device, or at the driver. */
  readonly end: 'output' | 'bus' | 'driver';
  /** What the bus turns its inputs down by, dB; 0 for other ends. */
  readonly busSum_db: number;
}

/** All legs of a node; `guessed` where the gear file draws none and the ports' names had to tell what goes to which output. */
export interface Legs {
  readonly legs: readonly Leg[];
  readonly guessed: boolean;
}

/**
 * @param wiredInputs ports of this node at which connections arrive
 * @param wiredOutputs ports of this node from which connections leave
 */
export function legsOf(
  node: SignalNode,
  wiredInputs: readonly string[],
  wiredOutputs: readonly string[],
): Legs {
  const drawn = node.gear?.paths ?? [];
  if (drawn.length === 0) return guessedLegs(node, wiredInputs, wiredOutputs);
  const buses = new Map(node.gear?.buses.map(({ name, sum_db }) => [name, sum_db]));
  const outputs = new Set(node.gear?.outputs);
  const starts = new Set(drawn.map(({ from }) => from));
  const legs = drawn.map(({ from, stages, to }): Leg => {
    const isBus = buses.has(to) || (starts.has(to) && !outputs.has(to) && to !== DRIVER);
    const end = to === DRIVER ? 'driver' : isBus ? 'bus' : 'output';
    return { node: node.id, from, to, stages, end, busSum_db: isBus ? (buses.get(to) ?? 0) : 0 };
  });
  return { legs, guessed: false };
}

/** Legs that go on from a wired input or a bus; a leg drawn for exactly this channel of a network port before one for all. */
export function legsFrom(legs: readonly Leg[], port: string): readonly Leg[] {
  const exact = legs.filter(({ from }) => from === port);
  return 0 < exact.length ? exact : legs.filter(({ from }) => samePort(from, port));
}

/** What stands before an output that nothing wired feeds: the first way that ends there, from its beginning. */
export function legsBefore(legs: readonly Leg[], port: string): readonly Leg[] {
  const chain: Leg[] = [];
  let end = port;
  for (;;) {
    const before = legs.find(({ to }) => to === end) ?? legs.find(({ to }) => samePort(to, end));
    if (before === undefined || chain.includes(before)) return chain;
    chain.unshift(before);
    end = before.from;
  }
}

/** Whatever comes in drives the driver, and goes to the outputs whose names are like the input's, or to all where one comes in. */
function guessedLegs(
  node: SignalNode,
  wiredInputs: readonly string[],
  wiredOutputs: readonly string[],
): Legs {
  const straight = { node: node.id, stages: [], busSum_db: 0 };
  const toDriver = node.role === 'device' ? [] : wiredInputs;
  const legs: Leg[] = toDriver.map((from) => ({ ...straight, from, to: DRIVER, end: 'driver' }));
  for (const from of wiredInputs) {
    for (const to of wiredOutputs) {
      const belongs = wiredInputs.length === 1 || side(from) === side(to);
      if (belongs) legs.push({ ...straight, from, to, end: 'output' });
    }
  }
  return { legs, guessed: legs.some(({ end }) => end === 'output') };
}

/** What a port's name says beyond in or out: `left` for `in_left` and `out_left`. */
function side(port: string): string {
  return port.replace(/^(in|out|input|output)_?/, '');
}
