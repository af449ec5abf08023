// Boosts of equalisers as they are dialled in, each with the drivers that it works on: what the rules of the equaliser look at.

import type { Path } from '../../../schema/model/path.ts';
import type { SettingValue } from '../../../schema/model/room.ts';
import type { Setup } from '../../setup.ts';
import { settingAt } from '../signal/stages.ts';

/** Less does no harm worth a word: common practice, no source. */
export const LEAST_DB = 1;

export interface Boost {
  readonly path: Path;
  readonly targets: readonly string[];
  readonly frequency_hz: number;
  readonly gain_db: number;
}

/** Every band that lifts by `LEAST_DB` or more, once for each setting. */
export function boosts({ room, signalPaths }: Setup): readonly Boost[] {
  const found = new Map<string, { readonly value: SettingValue; readonly targets: Set<string> }>();
  for (const { target, stages } of signalPaths) {
    for (const { kind, settingPath } of stages) {
      const value = kind === 'eq' ? settingAt(room, settingPath) : undefined;
      if (value?.kind !== 'eq') continue;
      const key = value.path.join('\n');
      const known = found.get(key) ?? { value, targets: new Set() };
      known.targets.add(target);
      found.set(key, known);
    }
  }
  return [...found.values()].flatMap(({ value, targets }) =>
    value.kind !== 'eq'
      ? []
      : value.bands.flatMap(({ name, frequency_hz, gain_db }): readonly Boost[] =>
          frequency_hz === null || gain_db === null || gain_db < LEAST_DB
            ? []
            : [{ path: [...value.path, name], targets: [...targets], frequency_hz, gain_db }],
        ),
  );
}
