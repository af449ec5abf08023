// Crossover cases: which mains and subwoofers share the work below which filters, read from the traced paths.

import type { Control } from '../../schema/model/gear.ts';
import type { Path } from '../../schema/model/path.ts';
import type { Room, Speaker } from '../../schema/model/room.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { grouped } from '../signal/grouped.ts';
import { ownDelayStage, servedByDelays, settingKey } from '../signal/ownDelay.ts';
import type { TracedPath } from '../signal/traced.ts';

/** A filter stage that a control sets. */
export interface FilterStage extends GovernedStage {
  readonly control: Extract<Control, { readonly kind: 'filter' }>;
}

/** Mains and subwoofers that one crossover joins. */
export interface CrossoverCase {
  readonly device: string;
  readonly set: string | null;
  readonly path: Path;
  readonly mains: readonly Speaker[];
  readonly subs: readonly Speaker[];
  /** The stages of each main and sub, one a setting; empty where nothing filters that side. */
  readonly high: readonly FilterStage[];
  readonly low: readonly FilterStage[];
  /** One control sets both sides. */
  readonly isShared: boolean;
  readonly mainPaths: readonly TracedPath[];
  readonly subPaths: readonly TracedPath[];
  /** The subs' and the mains' own delay stages. */
  readonly subDelay: GovernedStage | null;
  readonly mainDelay: GovernedStage | null;
}

/** Every case of a room, in the order of its loudspeakers; LFE paths belong to none. */
export function crossoverCases(
  room: Pick<Room, 'speakers' | 'subwoofers'>,
  paths: readonly TracedPath[],
): readonly CrossoverCase[] {
  const served = servedByDelays(paths);
  const bass = paths.filter(({ isLfe }) => !isLfe);
  const mainIds = new Map(room.speakers.map((speaker) => [speaker.id, speaker]));
  const subIds = new Map(room.subwoofers.map((speaker) => [speaker.id, speaker]));
  const pairs = bass.flatMap((mainPath) => {
    const main = mainIds.get(mainPath.target);
    if (main === undefined) return [];
    const subPaths = bass.filter((path) => subIds.has(path.target) && sharesSignal(path, mainPath));
    const high = countingFilter(mainPath, 'high_pass');
    const lows = subPaths.flatMap((path) => countingFilter(path, 'low_pass') ?? []);
    const filter = high ?? lows[0];
    if (subPaths.length === 0 || filter === undefined) return [];
    return [{ main, mainPath, subPaths, high, lows, filter }];
  });
  return [...grouped(pairs, groupKey).values()].flatMap((group): CrossoverCase[] => {
    const [first] = group;
    if (first === undefined) return [];
    const subPaths = distinctBy(
      group.flatMap((pair) => pair.subPaths),
      pathKey,
    );
    const mainPaths = distinctBy(
      group.map(({ mainPath }) => mainPath),
      pathKey,
    );
    const high = distinctBy(
      group.flatMap((pair) => pair.high ?? []),
      settingKey,
    );
    const low = distinctBy(
      group.flatMap(({ lows }) => lows),
      settingKey,
    );
    const subs = new Set(subPaths.map(({ target }) => target));
    const [subPath] = subPaths;
    return [
      {
        device: first.filter.device,
        set: first.mainPath.set,
        path: first.filter.settingPath ?? [
          'settings',
          first.filter.device,
          first.filter.control.name,
        ],
        mains: distinctBy(
          group.map(({ main }) => main),
          ({ id }) => id,
        ),
        subs: room.subwoofers.filter(({ id }) => subs.has(id)),
        high,
        low,
        isShared: high.some((stage) =>
          low.some((other) => settingKey(other) === settingKey(stage)),
        ),
        mainPaths,
        subPaths,
        subDelay: subPath ? ownDelayStage(subPath, alike(bass, subPath), served) : null,
        mainDelay: ownDelayStage(first.mainPath, alike(bass, first.mainPath), served),
      },
    ];
  });
}

interface Pair {
  readonly main: Speaker;
  readonly mainPath: TracedPath;
  readonly filter: FilterStage;
}

/** One case for one control; where each port has its own, mains of one model with one setting make one case. */
function groupKey({ main, mainPath, filter }: Pair): string {
  const isOwn = filter.device === main.id;
  const common = [isOwn ? null : filter.device, mainPath.set, filter.control.name];
  if (!filter.control.eachPort && !isOwn) return JSON.stringify([...common, settingKey(filter)]);
  return JSON.stringify([...common, main.gearId, main.gear?.lowEnd, filter.value?.told ?? null]);
}

/** The same output of the same source or the same channel by another one, heard in the same set. */
function sharesSignal(a: TracedPath, b: TracedPath): boolean {
  const isSameOutput = a.source.device === b.source.device && a.source.port === b.source.port;
  const isSameChannel = a.channel !== null && a.channel === b.channel;
  return a.set === b.set && (isSameOutput || isSameChannel);
}

function alike(paths: readonly TracedPath[], path: TracedPath): readonly TracedPath[] {
  return paths.filter(({ target, set }) => target === path.target && set === path.set);
}

/**
 * The filter of a kind that counts on a way: the last that is in use; where none is, the first, for what stands at bypass
 * further on was most likely bypassed because of it.
 */
function countingFilter(
  { stages }: TracedPath,
  kind: 'high_pass' | 'low_pass',
): FilterStage | undefined {
  const filters = stages.filter(
    (stage): stage is FilterStage => stage.kind === kind && stage.control?.kind === 'filter',
  );
  return filters.findLast(({ value }) => value?.kind === 'filter') ?? filters[0];
}

function pathKey(path: TracedPath): string {
  return `${path.target} ${path.source.device} ${path.source.port} ${path.connections.join()}`;
}

function distinctBy<Thing>(things: readonly Thing[], keyOf: (thing: Thing) => string): Thing[] {
  return [...new Map(things.map((thing) => [keyOf(thing), thing])).values()];
}
