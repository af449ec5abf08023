// Advice on gain: input sensitivities that match what feeds them, and the LFE's 10 dB and low-pass.

import type { Room } from '../../../schema/model/room.ts';
import { LFE_GAIN_DB, voltageTo_dbu } from '../../acoustics/levels.ts';
import type { SettingAdvice } from '../../setup.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { grouped } from '../../signal/grouped.ts';
import { settingKey } from '../../signal/ownDelay.ts';
import { nearestStep, sameValue } from '../../signal/steps.ts';
import type { TracedPath } from '../../signal/traced.ts';
import type { FilterStage } from '../crossoverCase.ts';
import { choiceOf } from '../crossoverInput.ts';
import { filterEdits } from './crossovers.ts';
import { dialInFix, editFix, placeOfStage } from './draft.ts';
import { filterText, levelText, voltageText } from './settingText.ts';

export type LevelsOf = Pick<Room, 'devices' | 'subwoofers' | 'speakers' | 'wiring'>;

/** @source LFE +10 dB in band: ITU-R BS.775-3 Annex 7 */
const LFE_SOURCE = 'ITU-R BS.775-3 Annex 7';
/** The LFE's band ends here. @source ITU-R BS.775-3 Annex 7 */
const LFE_LOW_PASS_HZ = 120;
const LFE_SLOPE_DB_OCT = 24;

/** Advice on sensitivities, LFE gains and LFE low-passes, one for each setting on the traced paths. */
export function levelAdvice(
  room: LevelsOf,
  paths: readonly TracedPath[],
): readonly SettingAdvice[] {
  return [...sensitivityAdvice(room, paths), ...lfeGainAdvice(paths), ...lfeLowPassAdvice(paths)];
}

/** Room for what is left of a decibel in data sheets. */
const MATCH_DB = 0.5;

function sensitivityAdvice(room: LevelsOf, paths: readonly TracedPath[]): readonly SettingAdvice[] {
  const gear = new Map(
    [...room.devices, ...room.subwoofers, ...room.speakers].map((thing) => [thing.id, thing.gear]),
  );
  const wiring = new Map(room.wiring.map((connection) => [connection.index, connection]));
  const fed = paths.flatMap((path) =>
    path.stages.flatMap((stage) => {
      if (stage.control?.kind !== 'sensitivity') return [];
      const feeders = path.connections.flatMap((index) => {
        const connection = wiring.get(index);
        return connection?.to.device === stage.device ? [connection.from.device] : [];
      });
      const full_v = feeders.map((id) => gear.get(id)?.fullLevelOutput_v ?? null).at(-1) ?? null;
      return full_v === null || full_v <= 0
        ? []
        : [{ stage, full_v, feeder: feeders.at(-1) ?? '' }];
    }),
  );
  return [...grouped(fed, ({ stage }) => settingKey(stage)).values()].flatMap((same) => {
    const most = same.reduce((a, b) => (a.full_v < b.full_v ? b : a));
    const { control, value } = most.stage;
    if (control?.kind !== 'sensitivity') return [];
    const choices = (control.input_v.choices ?? [])
      .filter((choice) => 0 < choice)
      .sort((a, b) => a - b);
    const enough_v = most.full_v * 10 ** (-MATCH_DB / 20);
    const wanted_v =
      choices.find((choice) => enough_v <= choice) ??
      choices.at(-1) ??
      nearestStep(most.full_v, control.input_v);
    const dialIn = voltageText(wanted_v);
    const place = placeOfStage(most.stage);
    const agrees =
      value === null
        ? null
        : value.kind === 'voltage' &&
          0 < value.input_v &&
          Math.abs(decibels(value.input_v, wanted_v)) < 0.05;
    return [
      {
        ...plain(place, voltageText(most.full_v), dialIn, agrees),
        reason: `${most.feeder} gives at most ${voltageText(most.full_v)}: the next choice that takes it without clipping, and no noisier than need be${othersText(most.full_v, wanted_v, choices)}`,
        source: 'gain structure: common practice, no source',
        standing: 'computed',
        fix: dialInFix(place, dialIn, agrees, false),
      },
    ];
  });
}

/**
 * What the other choices would cost: a lower one clips before the source's full scale; a higher one leaves that much unused, and
 * the noise of all that comes after the input as much nearer to the signal.
 */
function othersText(full_v: number, wanted_v: number, choices: readonly number[]): string {
  return choices
    .filter((choice) => 0.05 <= Math.abs(decibels(choice, wanted_v)))
    .map((choice) => {
      const margin_db = decibels(choice, full_v);
      return margin_db < -MATCH_DB
        ? `; ${voltageText(choice)} would clip ${(-margin_db).toFixed(1)} dB below full scale`
        : `; ${voltageText(choice)} would leave ${margin_db.toFixed(1)} dB unused and bring noise after the input ${decibels(choice, wanted_v).toFixed(1)} dB nearer`;
    })
    .join('');
}

function lfeGainAdvice(paths: readonly TracedPath[]): readonly SettingAdvice[] {
  return onLfePaths(paths, 'lfe_gain').flatMap(({ stage, others }) => {
    if (stage.control?.kind !== 'level') return [];
    const made_db = others.reduce((sum_db, { value }) => sum_db + levelOf(value), 0);
    const needed_db = LFE_GAIN_DB - made_db;
    const wanted_db = nearestStep(needed_db, stage.control.level_db);
    const dialIn = levelText(wanted_db, stage.control.level_db.step);
    const place = placeOfStage(stage);
    const { value } = stage;
    const agrees =
      value === null ? null : value.kind === 'level' && sameValue(value.level_db, wanted_db);
    return [
      {
        ...plain(place, levelText(needed_db, null), dialIn, agrees),
        reason: 'the LFE channel is replayed 10 dB above a main channel in its band',
        source: LFE_SOURCE,
        standing: 'computed',
        fix: dialInFix(place, dialIn, agrees, false),
      },
    ];
  });
}

function lfeLowPassAdvice(paths: readonly TracedPath[]): readonly SettingAdvice[] {
  return onLfePaths(paths, 'lfe_low_pass').flatMap(({ stage, others }) => {
    if (stage.control?.kind !== 'filter') return [];
    const filter: FilterStage = { ...stage, control: stage.control };
    const isDone = others.some((other) => other.value?.kind === 'filter');
    if (isDone) return [];
    const frequency_hz = nearestStep(LFE_LOW_PASS_HZ, stage.control.frequency_hz);
    const slope_db_oct = nearestStep(LFE_SLOPE_DB_OCT, stage.control.slope_db_oct);
    const dialIn = filterText(frequency_hz, slope_db_oct);
    const has = choiceOf(filter);
    const agrees =
      stage.value === null ? null : has !== null && sameValue(has.frequency_hz, frequency_hz);
    const place = placeOfStage(stage);
    return [
      {
        ...plain(place, dialIn, dialIn, agrees),
        reason: 'the LFE channel ends at 120 Hz, and nothing else on its way filters it',
        source: LFE_SOURCE,
        standing: 'computed',
        fix:
          agrees === true
            ? null
            : editFix(dialIn, filterEdits(filter, frequency_hz, slope_db_oct), false),
      },
    ];
  });
}

interface LfeStage {
  readonly stage: GovernedStage;
  /** Stages of the same kind before it, on the same way. */
  readonly others: readonly GovernedStage[];
}

function onLfePaths(
  paths: readonly TracedPath[],
  kind: 'lfe_gain' | 'lfe_low_pass',
): readonly LfeStage[] {
  const found = new Map<string, LfeStage>();
  for (const { stages } of paths) {
    const alike = stages.filter((stage) => stage.kind === kind);
    for (const [index, stage] of alike.entries()) {
      const key = settingKey(stage);
      if (!found.has(key)) found.set(key, { stage, others: alike.slice(0, index) });
    }
  }
  return [...found.values()];
}

function levelOf(value: GovernedStage['value']): number {
  return value?.kind === 'level' ? value.level_db : 0;
}

function decibels(a_v: number, b_v: number): number {
  return voltageTo_dbu(a_v) - voltageTo_dbu(b_v);
}

function plain(
  place: ReturnType<typeof placeOfStage>,
  exact: string,
  dialIn: string,
  agrees: boolean | null,
): Omit<SettingAdvice, 'reason' | 'source' | 'standing' | 'fix'> {
  return {
    ...place,
    exact,
    dialIn,
    agrees,
    residual: null,
    residual_s: null,
    residualPhase_rad: null,
  };
}
