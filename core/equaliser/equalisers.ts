// The equalisers of a room that are worth fitting: one for each loudspeaker and subwoofer, with the ways that it lies on.

import type { Control } from '../../schema/model/gear.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { settingKey } from '../signal/ownDelay.ts';
import type { TracedPath } from '../signal/traced.ts';

type EqControl = Extract<Control, { readonly kind: 'eq' }>;
export interface EqStage extends GovernedStage {
  readonly control: EqControl;
}

export interface Served {
  readonly stage: EqStage;
  readonly paths: readonly TracedPath[];
}

/**
 * In the order of the signal paths.
 *
 * @param devices only those of these; null for all
 */
export function equalisers(
  paths: readonly TracedPath[],
  devices: readonly string[] | null,
): readonly Served[] {
  return chosen(eqStages(paths).filter(({ stage }) => devices?.includes(stage.device) ?? true));
}

/** Every equaliser with the ways that it lies on. */
function eqStages(paths: readonly TracedPath[]): readonly Served[] {
  const stages = new Map<string, { readonly stage: EqStage; readonly paths: TracedPath[] }>();
  for (const path of paths) {
    for (const stage of path.stages) {
      if (stage.kind !== 'eq' || stage.control?.kind !== 'eq') continue;
      const known = stages.get(settingKey(stage));
      if (known) known.paths.push(path);
      else {
        const { control } = stage;
        stages.set(settingKey(stage), { stage: { ...stage, control }, paths: [path] });
      }
    }
  }
  return [...stages.values()];
}

/** One for each source, since two would correct it twice: one that is in use, else the one nearest to the driver that serves least. */
function chosen(all: readonly Served[]): readonly Served[] {
  const sourcesOf = ({ paths }: Served) => new Set(paths.map(({ target }) => target));
  const inUse = ({ stage: { value } }: Served) => value?.kind === 'eq' && 0 < value.bands.length;
  const ranked = all
    .map((one, index) => ({ one, index }))
    .toSorted(
      (a, b) =>
        Number(inUse(b.one)) - Number(inUse(a.one)) ||
        sourcesOf(a.one).size - sourcesOf(b.one).size ||
        b.index - a.index,
    );
  const covered = new Set<string>();
  const kept = new Set<Served>();
  for (const { one } of ranked) {
    const sources = sourcesOf(one);
    if ([...sources].some((source) => covered.has(source))) continue;
    kept.add(one);
    for (const source of sources) covered.add(source);
  }
  return all.filter((one) => kept.has(one));
}
