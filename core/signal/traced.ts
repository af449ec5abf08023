// Traced paths: each route with the settings that govern it, once for each set of monitors that it serves.

import type { DeviceSettings, Room } from '../../schema/model/room.ts';
import { isLfeName } from '../layouts/channelNames.ts';
import type { Note, SignalPath } from '../setup.ts';
import { dialledDelay_s } from './dialledDelay.ts';
import { type GovernedStage, governedStages } from './governing.ts';
import { grouped } from './grouped.ts';
import type { Leg } from './leg.ts';
import { type SignalNode, signalNodes } from './node.ts';
import { basePort } from './port.ts';
import { findRoutes, type Route, type Wired } from './route.ts';

/** A signal path with all that the later parts ask of it; the Setup keeps less. */
export interface TracedPath extends Omit<SignalPath, 'stages' | 'set'> {
  readonly set: string | null;
  readonly stages: readonly GovernedStage[];
  /** What the buses of each device on the way turn their inputs down by; devices without one are left out. */
  readonly busSums: readonly { readonly device: string; readonly sum_db: number }[];
  /** Carries low-frequency effects: by its channel, or by a stage that it passes. */
  readonly isLfe: boolean;
  /** Devices on the way whose latency is not recorded. */
  readonly latencyGaps: readonly string[];
  /** Settings on the way whose delay cannot be known. */
  readonly delayGaps: readonly GovernedStage[];
}

export interface Trace {
  readonly paths: readonly TracedPath[];
  readonly notes: readonly Note[];
}

export type Traceable = Wired & Pick<Room, 'settings' | 'sets'>;

/** Traces every source output to every driver. */
export function trace(room: Traceable): Trace {
  const found = findRoutes(room);
  const nodes = new Map(signalNodes(room).map((node) => [node.id, node]));
  const settings = new Map(room.settings.map((of) => [of.device, of]));
  const channels = channelsOf(found.routes, nodes);
  const paths = found.routes.flatMap((route) =>
    setsOf(room, route.target).map((set) =>
      tracedPath(route, set, channels.get(outputKey(route)) ?? null, nodes, settings),
    ),
  );
  const notes: Note[] = found.guessed.map((id) => ({
    path: [nodes.get(id)?.role === 'device' ? 'devices' : thingsOf(nodes.get(id)), id],
    message: `no signal paths are known for the gear of ${id}: its ports' names were taken to say what goes where`,
  }));
  if (paths.length === 0 && 0 < room.speakers.length + room.subwoofers.length) {
    const why = room.wiring.length === 0 ? 'no wiring is recorded' : 'the wiring reaches no driver';
    notes.push({
      path: ['wiring'],
      message: `${why}: signal paths, latencies and delays cannot be worked out`,
    });
  }
  if (found.cutShort) {
    notes.push({
      path: ['wiring'],
      message: 'more signal paths than can be followed: some are left out',
    });
  }
  return { paths, notes };
}

/** What the Setup keeps of a traced path. */
export function signalPath(path: TracedPath): SignalPath {
  const { source, channel, target, set, connections, latency_s, delay_s, gain_db, inverted } = path;
  const stages = path.stages.map(({ device, stage, kind, fromPort, toPort, settingPath }) => ({
    device,
    stage,
    kind,
    fromPort,
    toPort,
    settingPath,
  }));
  const kept = { source, channel, target, stages, connections, latency_s, delay_s, gain_db };
  return set === null ? { ...kept, inverted } : { ...kept, inverted, set };
}

function tracedPath(
  { source, target, legs, connections }: Route,
  set: string | null,
  channel: string | null,
  nodes: ReadonlyMap<string, SignalNode>,
  settings: ReadonlyMap<string, DeviceSettings>,
): TracedPath {
  const stages = legs.flatMap((leg) =>
    governedStages(leg, nodes.get(leg.node), settings.get(leg.node), set),
  );
  const delays = stages.map((stage) => stageDelay_s(stage, settings.get(stage.device)));
  const latency = latencyOf(source, target, legs, nodes);
  const buses_db = legs.reduce((sum_db, leg) => sum_db + leg.busSum_db, 0);
  return {
    source,
    channel,
    target,
    set,
    stages,
    connections,
    latency_s: latency.gaps.length === 0 ? latency.sum_s : null,
    latencyGaps: latency.gaps,
    delay_s: delays.reduce((sum_s: number, delay_s) => sum_s + (delay_s ?? 0), 0),
    delayGaps: stages.filter((_, index) => delays[index] === null),
    gain_db: stages.reduce((sum_db, stage) => sum_db + gain_db(stage), buses_db),
    busSums: legs.flatMap(({ node, busSum_db }) =>
      busSum_db === 0 ? [] : [{ device: node, sum_db: busSum_db }],
    ),
    inverted: stages.filter(isInverting).length % 2 === 1,
    isLfe:
      (channel !== null && isLfeName(channel)) ||
      stages.some(({ kind }) => kind === 'lfe_gain' || kind === 'lfe_low_pass'),
  };
}

/** Seconds that a stage adds; 0 for other kinds; null where what is dialled in cannot be turned into time. */
export function stageDelay_s(
  { kind, control, value }: GovernedStage,
  settings: DeviceSettings | undefined,
): number | null {
  if (kind !== 'delay' || control?.kind !== 'delay') return 0;
  return dialledDelay_s(value, control.toldAs, settings);
}

function gain_db({ value }: GovernedStage): number {
  return value?.kind === 'level' ? value.level_db : 0;
}

/** `polarity: inverted` is the format's word; half a turn of a phase control is the same thing. */
export function isInverting({ kind, value }: GovernedStage): boolean {
  if (kind !== 'polarity') return false;
  return value?.kind === 'choice' && value.choice === 'inverted';
}

/**
 * Latency along a route, counted where it leaves each device. The source's own, where it is not recorded, is the same for
 * all its outputs and shifts no arrival against another; a passive loudspeaker and a passive switch have none.
 */
function latencyOf(
  source: Route['source'],
  target: string,
  legs: readonly Leg[],
  nodes: ReadonlyMap<string, SignalNode>,
): { readonly sum_s: number; readonly gaps: readonly string[] } {
  const exits = legs.filter(({ end }) => end !== 'bus').map(({ node, to }) => ({ node, to }));
  if (!exits.some(({ node }) => node === source.device)) {
    exits.unshift({ node: source.device, to: source.port });
  }
  const fed = exits[exits.length - 2]?.node;
  const isPassive = fed !== undefined && nodes.get(fed)?.gear?.kind === 'amplifier';
  let sum_s = 0;
  const gaps: string[] = [];
  for (const { node, to } of exits) {
    const gear = nodes.get(node)?.gear ?? null;
    const latency_s = portLatency_s(gear?.latency_s ?? [], to);
    const none =
      node === source.device || gear?.kind === 'switch' || (node === target && isPassive);
    if (latency_s !== null) sum_s += latency_s;
    else if (!none) gaps.push(node);
  }
  return { sum_s, gaps };
}

function portLatency_s(
  latencies: readonly { readonly port: string; readonly latency_s: number }[],
  port: string,
): number | null {
  const found =
    latencies.find((latency) => latency.port === port) ??
    latencies.find((latency) => latency.port === basePort(port)) ??
    latencies.find((latency) => latency.port === '*');
  return found?.latency_s ?? null;
}

/** The sets that a loudspeaker or subwoofer belongs to; [null] where it is always on. */
export function setsOf({ sets }: Pick<Room, 'sets'>, target: string): readonly (string | null)[] {
  const holding = sets.filter(
    ({ speakers, subwoofers }) => speakers.includes(target) || subwoofers.includes(target),
  );
  return holding.length === 0 ? [null] : holding.map(({ id }) => id);
}

/** What each source output carries: as the file says, as the one loudspeaker channel that it reaches, or LFE by its stages. */
function channelsOf(
  routes: readonly Route[],
  nodes: ReadonlyMap<string, SignalNode>,
): ReadonlyMap<string, string> {
  const channels = new Map<string, string>();
  for (const [key, same] of grouped(routes, outputKey)) {
    const source = same[0]?.source;
    if (source === undefined) continue;
    const said = nodes
      .get(source.device)
      ?.channels.find(({ port }) => port === source.port || port === basePort(source.port));
    const reached = same.flatMap(({ target }) => nodes.get(target)?.channel ?? []);
    const [only, ...others] = [...new Set(reached)];
    const isLfe = same.some(({ legs }) => legs.some(isLfeLeg));
    if (said) channels.set(key, said.channel);
    else if (only !== undefined && others.length === 0) channels.set(key, only);
    else if (only === undefined && isLfe) channels.set(key, 'LFE');
  }
  return channels;
}

function isLfeLeg({ from, stages }: Leg): boolean {
  return (
    stages.includes('lfe_gain') ||
    stages.includes('lfe_low_pass') ||
    from.split(/[_.]/).some(isLfeName)
  );
}

function outputKey({ source }: Route): string {
  return `${source.device} ${source.port}`;
}

function thingsOf(node: SignalNode | undefined): string {
  return node?.role === 'subwoofer' ? 'subwoofers' : 'speakers';
}
