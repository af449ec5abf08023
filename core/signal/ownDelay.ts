// A driver's own delay: the delay stage nearest to it that holds up nothing else, on every way by which signal reaches it.

import { pathText } from '../../schema/model/path.ts';
import type { GovernedStage } from './governing.ts';
import type { TracedPath } from './traced.ts';

/** The setting behind a stage as one word; stages that share a setting share it. */
export function settingKey({ settingPath, device, stage }: GovernedStage): string {
  return settingPath === null ? `${device} ${stage}` : pathText(settingPath);
}

/** Which drivers each delay setting holds up. */
export type Served = ReadonlyMap<string, readonly string[]>;

export function servedByDelays(paths: readonly TracedPath[]): Served {
  const served = new Map<string, string[]>();
  for (const { stages, target } of paths) {
    for (const stage of stages) {
      if (!isSettableDelay(stage)) continue;
      const targets = served.get(settingKey(stage)) ?? [];
      if (!targets.includes(target)) targets.push(target);
      served.set(settingKey(stage), targets);
    }
  }
  return served;
}

/**
 * @param path the way that is to be aligned
 * @param others all ways to the same driver in the same set
 * @returns the stage that serves fewest drivers, nearest to the driver among equals; null where there is none
 */
export function ownDelayStage(
  path: TracedPath,
  others: readonly TracedPath[],
  served: Served,
): GovernedStage | null {
  const onAll = path.stages.filter(
    (stage) =>
      isSettableDelay(stage) &&
      others.every(({ stages }) =>
        stages.some((other) => isSettableDelay(other) && settingKey(other) === settingKey(stage)),
      ),
  );
  const count = (stage: GovernedStage) => served.get(settingKey(stage))?.length ?? 0;
  return onAll.reduce<GovernedStage | null>(
    (best, stage) => (best === null || count(stage) <= count(best) ? stage : best),
    null,
  );
}

function isSettableDelay({ kind, control }: GovernedStage): boolean {
  return kind === 'delay' && control?.kind === 'delay';
}
