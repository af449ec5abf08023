// What can be dialled in on one subwoofer alone: the level, delay and polarity that serve it and nothing else.

import type { Room } from '../../schema/model/room.ts';
import type { GovernedStage } from '../signal/governing.ts';
import { settingKey } from '../signal/ownDelay.ts';
import { isInverting, stageDelay_s, type TracedPath } from '../signal/traced.ts';
import type { SettingRanges, SubSetting } from './searchTask.ts';

export interface SubControls {
  readonly setting: SubSetting;
  readonly ranges: SettingRanges;
  /** Where each stands in the file; null where there is none. */
  readonly delay: GovernedStage | null;
  readonly level: GovernedStage | null;
  readonly polarity: GovernedStage | null;
}

/**
 * @param isAbsolute whether levels are known; where they are only matched to each other, none is searched for
 */
export function subControls(
  { settings }: Pick<Room, 'settings'>,
  paths: readonly TracedPath[],
  sub: string,
  isAbsolute: boolean,
): SubControls {
  const own = (kind: GovernedStage['kind']) => ownStage(paths, sub, kind);
  const [delay, level, polarity] = [own('delay'), own('level'), own('polarity')];
  const of = settings.find(({ device }) => device === delay?.device);
  const dialled_s = delay === null ? null : stageDelay_s(delay, of);
  return {
    setting: {
      level_db: level?.value?.kind === 'level' ? level.value.level_db : 0,
      delay_s: dialled_s ?? 0,
      inverted: polarity !== null && isInverting(polarity),
    },
    ranges: {
      level_db: isAbsolute && level?.control?.kind === 'level' ? level.control.level_db : null,
      delay_s:
        delay?.control?.kind === 'delay' &&
        dialled_s !== null &&
        delay.control.toldAs.as !== 'own_distance'
          ? delay.control.delay_s
          : null,
      canInvert:
        polarity?.control?.kind === 'polarity' &&
        ['normal', 'inverted'].every((choice) =>
          polarity.control?.kind === 'polarity' ? polarity.control.choices.includes(choice) : false,
        ),
    },
    delay,
    level,
    polarity,
  };
}

/** The stage of a kind nearest to the driver that lies on every way to it and on no way to anything else. */
function ownStage(
  paths: readonly TracedPath[],
  sub: string,
  kind: GovernedStage['kind'],
): GovernedStage | null {
  const mine = paths.filter(({ target }) => target === sub);
  const elsewhere = new Set(
    paths.filter(({ target }) => target !== sub).flatMap(({ stages }) => stages.map(settingKey)),
  );
  const [first, ...others] = mine;
  const found = first?.stages.filter(
    (stage) =>
      stage.kind === kind &&
      stage.control !== null &&
      !elsewhere.has(settingKey(stage)) &&
      others.every(({ stages }) => stages.some((one) => settingKey(one) === settingKey(stage))),
  );
  return found?.at(-1) ?? null;
}
