// Part of Setup: in which order to switch on and off, from what feeds what, and what each circuit has to carry.

import type { Gear } from '../../schema/model/gear.ts';
import type { Room } from '../../schema/model/room.ts';
import type { PowerFigures, PowerStep } from '../setup.ts';

export type PowerOf = Pick<Room, 'devices' | 'subwoofers' | 'speakers' | 'wiring' | 'circuits'>;

export function powerPart(room: PowerOf): PowerFigures {
  const steps = upSteps(room);
  return {
    up: steps.map(({ ids, rank }) => ({ ids, reason: UP[rank] })),
    down: steps.toReversed().map(({ ids, rank }) => ({ ids, reason: DOWN[rank] })),
    circuits: circuitsOf(room),
  };
}

type Rank = 'source' | 'processor' | 'subwoofer' | 'amplifier' | 'main';

/** In this order where the wiring leaves a choice: common practice, no source. */
const RANKS: readonly Rank[] = ['source', 'processor', 'subwoofer', 'amplifier', 'main'];

const UP: Readonly<Record<Rank, string>> = {
  source: 'sources first: their start-up noise reaches nothing that is on',
  processor: 'what stands between, once its sources are quiet',
  subwoofer: 'subwoofers after all that feeds them, before what they feed',
  amplifier: 'power amplifiers after everything before them, turned down',
  main: 'main loudspeakers last: nothing before them can pop through them',
};

const DOWN: Readonly<Record<Rank, string>> = {
  source: 'sources last',
  processor: 'what stands between, once nothing that it feeds is on',
  subwoofer: 'subwoofers before what feeds them',
  amplifier: 'power amplifiers first: nothing after them is left to pop',
  main: 'main loudspeakers first: what is switched off later cannot pop through them',
};

interface Step extends Pick<PowerStep, 'ids'> {
  readonly rank: Rank;
}

interface Switched {
  readonly id: string;
  readonly rank: Rank;
}

/**
 * Always the lowest rank among those whose feeders are all on; in a loop of feeders the lowest rank is taken as it comes.
 * Neighbours of one rank that do not feed each other make one step.
 */
function upSteps(room: PowerOf): readonly Step[] {
  const feeders = feedersOf(room);
  const waiting = switchedThings(room, feeders);
  const steps: Step[] = [];
  while (0 < waiting.length) {
    const isWaiting = new Set(waiting.map(({ id }) => id));
    const isReady = ({ id }: Switched) =>
      [...(feeders.get(id) ?? [])].every((feeder) => feeder === id || !isWaiting.has(feeder));
    const ready = waiting.filter(isReady);
    const candidates = 0 < ready.length ? ready : waiting;
    const rank = RANKS.find((each) => candidates.some((thing) => thing.rank === each)) ?? 'main';
    const now = candidates.filter((thing) => thing.rank === rank);
    // In a loop one at a time, so that the next may be ready.
    const taken = 0 < ready.length ? now : now.slice(0, 1);
    steps.push({ ids: taken.map(({ id }) => id), rank });
    for (const thing of taken) waiting.splice(waiting.indexOf(thing), 1);
  }
  return steps;
}

/** Ids of what feeds each thing, through passive switches and loudspeakers as well. */
function feedersOf({ wiring }: PowerOf): ReadonlyMap<string, ReadonlySet<string>> {
  const feeders = new Map<string, Set<string>>();
  for (const { from, to } of wiring) {
    feeders.set(to.device, (feeders.get(to.device) ?? new Set()).add(from.device));
  }
  return feeders;
}

/** All that has a mains switch: not the passive loudspeakers, which are those that an amplifier feeds. */
function switchedThings(
  { devices, subwoofers, speakers }: PowerOf,
  feeders: ReadonlyMap<string, ReadonlySet<string>>,
): Switched[] {
  const amplifiers = new Set(
    devices.filter(({ gear }) => gear?.kind === 'amplifier').map(({ id }) => id),
  );
  const isPassive = ({ id, gear }: { readonly id: string; readonly gear: Gear | null }) =>
    gear?.power == null && [...(feeders.get(id) ?? [])].some((feeder) => amplifiers.has(feeder));
  return [
    ...devices.map(({ id, gear }) => ({ id, rank: deviceRank(gear, feeders.has(id)) })),
    ...subwoofers
      .filter((subwoofer) => !isPassive(subwoofer))
      .map(({ id }) => ({ id, rank: 'subwoofer' as const })),
    ...speakers
      .filter((speaker) => !isPassive(speaker))
      .map(({ id }) => ({ id, rank: 'main' as const })),
  ];
}

/** What nothing feeds is a source, unless it is of a kind that stands between: then its source is not in the file. */
function deviceRank(gear: Gear | null, isFed: boolean): Rank {
  if (gear?.kind === 'amplifier') return 'amplifier';
  if (gear?.kind === 'interface') return 'source';
  return isFed || gear !== null ? 'processor' : 'source';
}

function circuitsOf(room: PowerOf): PowerFigures['circuits'] {
  const gear = new Map(
    [...room.devices, ...room.subwoofers, ...room.speakers].map(({ id, gear: of }) => [id, of]),
  );
  return room.circuits.map(({ id, rating_a, voltage_v, feeds }) => {
    const power = feeds.map((fed) => gear.get(fed)?.power ?? null);
    const sum = (figures: readonly (number | null | undefined)[]) =>
      figures.reduce((total: number, figure) => total + (figure ?? 0), 0);
    const load_w = sum(power.map((of) => of?.rated_w ?? of?.idle_w));
    const load_a = voltage_v === null || voltage_v <= 0 ? 0 : load_w / voltage_v;
    const isKnown = rating_a !== null && 0 < rating_a && voltage_v !== null && 0 < voltage_v;
    return {
      circuit: id,
      rated_a: rating_a,
      idle_w: sum(power.map((of) => of?.idle_w)),
      load_a,
      inrush_a: sum(power.map((of) => of?.inrush_a)),
      share: isKnown ? load_a / rating_a : null,
      unknown: feeds.filter((_, index) => power[index]?.rated_w == null),
    };
  });
}
