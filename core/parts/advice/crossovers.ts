// Advice on crossover filters and phase controls: the best-ranked choice, in the steps of each control.

import type { Room } from '../../../schema/model/room.ts';
import type { SemanticEdit } from '../../finding.ts';
import type { CrossoverFigures, CrossoverOutcome, SettingAdvice } from '../../setup.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { settingKey } from '../../signal/ownDelay.ts';
import { nearestStep, sameValue } from '../../signal/steps.ts';
import type { FilterStage } from '../crossoverCase.ts';
import { choiceOf } from '../crossoverInput.ts';
import type { JudgedCase } from '../crossovers.ts';
import { dialInFix, editFix, placeForSet, placeOfStage } from './draft.ts';
import { angleText, filterText, frequencyText, slopeText } from './settingText.ts';

/** What is dialled in counts as good where it ranks this near to the best: less than anyone can tell from data sheets. */
const AS_GOOD_DB = 0.5;
const SOURCE =
  'complex sum of electrical filters and natural roll-offs; the ranking is our own. The start that practice names stands beside it';

/** One piece of advice for each filter setting of each crossover, and for the phase control where it decides. */
export function crossoverAdvice(
  { devices }: Pick<Room, 'devices'>,
  judged: readonly JudgedCase[],
): readonly SettingAdvice[] {
  const controllers = controllersOf(devices);
  return judged.flatMap(({ of, best, behindBest_db, hasPhase }) => {
    if (best === null) return [];
    const stages = new Map([...of.high, ...of.low].map((stage) => [settingKey(stage), stage]));
    const isGood = behindBest_db !== null && behindBest_db <= AS_GOOD_DB;
    const isShared = (stage: FilterStage) =>
      controllers.has(stage.device) &&
      stage.set === null &&
      judged.some(
        ({ of: { set, high, low } }) =>
          set !== of.set && [...high, ...low].some((one) => settingKey(one) === settingKey(stage)),
      );
    const standing = standingOf({ hasPhase });
    const filters = [...stages.values()].map((stage) =>
      filterAdvice(stage, best, isGood, { ownSet: isShared(stage) ? of.set : null, standing }),
    );
    return [...filters, ...phaseAdvice(of.subPaths[0]?.stages ?? [], best, standing)];
  });
}

/** Devices whose settings may differ by set of monitors. */
export function controllersOf(devices: Room['devices']): ReadonlySet<string> {
  return new Set(devices.filter(({ gear }) => gear?.kind === 'controller').map(({ id }) => id));
}

/** A start while phase is a guess. */
export function standingOf({
  hasPhase,
}: Pick<CrossoverFigures, 'hasPhase'>): SettingAdvice['standing'] {
  return hasPhase === true ? 'computed' : 'start';
}

function filterAdvice(
  stage: FilterStage,
  best: CrossoverOutcome,
  isGood: boolean,
  { ownSet, standing }: { readonly ownSet: string | null } & Pick<SettingAdvice, 'standing'>,
): SettingAdvice {
  const { control } = stage;
  const frequency_hz = nearestStep(best.filter.frequency_hz, control.frequency_hz);
  const slope_db_oct = nearestStep(best.filter.slope_db_oct, control.slope_db_oct);
  const dialIn = filterText(frequency_hz, slope_db_oct);
  const has = choiceOf(stage);
  const isBest =
    has !== null &&
    sameValue(has.frequency_hz, frequency_hz) &&
    sameValue(has.slope_db_oct, slope_db_oct);
  const isGoodToo = !isBest && isGood && has !== null;
  const agrees = stage.value === null ? null : isBest || isGoodToo;
  const isApart = ownSet !== null && agrees === false;
  const place = isApart ? placeForSet(stage, ownSet) : placeOfStage(stage);
  return {
    ...place,
    exact: dialIn,
    // What is as good as the best is left as it is.
    dialIn: isGoodToo ? filterText(has.frequency_hz, has.slope_db_oct) : dialIn,
    agrees,
    residual: null,
    residual_s: null,
    residualPhase_rad: null,
    reason: isGoodToo
      ? `as good as ${dialIn}, the best by the sum, to within ${AS_GOOD_DB} dB`
      : [`with polarity ${best.polarity}`, ...best.reasons.slice(0, 3)].join('; '),
    source: SOURCE,
    standing,
    fix:
      agrees === true
        ? null
        : editFix(dialIn, filterEdits(stage, frequency_hz, slope_db_oct), standing === 'computed'),
  };
}

/** Changes of what stands there, number by number; the whole record where there is none. */
export function filterEdits(
  { settingPath, value, device, control }: FilterStage,
  frequency_hz: number,
  slope_db_oct: number,
): readonly SemanticEdit[] {
  const path = settingPath ?? ['settings', device, control.name];
  if (value?.kind !== 'filter' || value.frequency_hz === null || value.slope_db_oct === null) {
    return [{ do: 'set', path, value: filterText(frequency_hz, slope_db_oct) }];
  }
  const edits: SemanticEdit[] = [];
  if (!sameValue(value.frequency_hz, frequency_hz)) {
    edits.push({ do: 'set', path: [...path, 'frequency'], value: frequencyText(frequency_hz) });
  }
  if (!sameValue(value.slope_db_oct, slope_db_oct)) {
    edits.push({ do: 'set', path: [...path, 'slope'], value: slopeText(slope_db_oct) });
  }
  return edits;
}

function phaseAdvice(
  stages: readonly GovernedStage[],
  { phase_rad }: CrossoverOutcome,
  standing: SettingAdvice['standing'],
): readonly SettingAdvice[] {
  const stage = stages.findLast(({ control }) => control?.kind === 'phase');
  if (stage === undefined || phase_rad === undefined) return [];
  const dialIn = angleText(phase_rad);
  const place = placeOfStage(stage);
  const { value } = stage;
  const agrees = value?.kind === 'phase' ? sameValue(value.phase_rad, phase_rad) : null;
  return [
    {
      ...place,
      exact: dialIn,
      dialIn,
      agrees,
      residual: null,
      residual_s: null,
      residualPhase_rad: null,
      reason: 'goes with the suggested crossover and its delay',
      source: SOURCE,
      standing,
      fix: dialInFix(place, dialIn, agrees, standing === 'computed'),
    },
  ];
}
