// Advice on polarity: the one that gives more bass where mains and subwoofer overlap, for the crossover as dialled in.

import type { CrossoverFigures, SettingAdvice } from '../../setup.ts';
import { showFor } from '../../show.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { isInverting } from '../../signal/traced.ts';
import type { JudgedCase } from '../crossovers.ts';
import { standingOf } from './crossovers.ts';
import { dialInFix, placeForSet, placeOfStage } from './draft.ts';

const show = showFor({ length: 'metre', temperature: 'celsius', mass: 'kilogram' });

/** Below this the two polarities give as much: common practice, no source. */
const NOTHING_IN_IT_DB = 0.5;

/**
 * One piece of advice for each polarity switch on the way to a subwoofer.
 *
 * @param controllers devices whose settings may differ by set of monitors
 */
export function polarityAdvice(
  crossovers: readonly CrossoverFigures[],
  judged: readonly JudgedCase[],
  controllers: ReadonlySet<string>,
): readonly SettingAdvice[] {
  const told = new Set<string>();
  return crossovers.flatMap((figures, index) => {
    const of = judged[index]?.of;
    return (of?.subs ?? []).flatMap((sub): readonly SettingAdvice[] => {
      const path = of?.subPaths.find(({ target }) => target === sub.id);
      const isShared = crossovers.some(
        ({ set, subs }) => set !== figures.set && subs.includes(sub.id),
      );
      const switches = path?.stages.filter(({ control }) => control?.kind === 'polarity') ?? [];
      const bySet = isShared ? switches.find(({ device }) => controllers.has(device)) : undefined;
      const stage = bySet ?? switches.at(-1);
      const choice = wantedPolarity(figures, isTurned(of));
      if (path === undefined || stage === undefined || choice === null) return [];
      const others = path.inverted !== isInverting(stage);
      const mainsInverted = of?.mainPaths[0]?.inverted ?? false;
      const wanted = choice.isInverted !== (others !== mainsInverted);
      const isRight = isInverting(stage) === wanted;
      const isOfAll = bySet !== undefined && bySet.set === null && figures.set !== null;
      const place =
        isOfAll && !isRight ? placeForSet(stage, figures.set ?? '') : placeOfStage(stage);
      const key = place.path.join('\n');
      if (told.has(key)) return [];
      told.add(key);
      const dialIn = wanted ? 'inverted' : 'normal';
      return [adviceFor(stage, place, dialIn, { ...choice, standing: standingOf(figures) })];
    });
  });
}

/** Whether the subs now stand against the mains. */
function isTurned(of: JudgedCase['of'] | undefined): boolean {
  return (of?.subPaths[0]?.inverted ?? false) !== (of?.mainPaths[0]?.inverted ?? false);
}

interface Wanted {
  readonly isInverted: boolean;
  readonly gain_db: number;
  /** Too near to tell, as things are dialled in. */
  readonly isEven: boolean;
}

/** The polarity of subs against mains: for what is dialled in, else for what is suggested. */
function wantedPolarity(
  { otherPolarity_db, ranked, practice }: CrossoverFigures,
  isInverted: boolean,
): Wanted | null {
  if (otherPolarity_db !== undefined) {
    const isEven = Math.abs(otherPolarity_db) < NOTHING_IN_IT_DB;
    const turn = 0 < otherPolarity_db && !isEven;
    return { isInverted: isInverted !== turn, gain_db: Math.abs(otherPolarity_db), isEven };
  }
  const best = ranked[0] ?? practice;
  return best ? { isInverted: best.polarity === 'inverted', gain_db: 0, isEven: false } : null;
}

function adviceFor(
  stage: GovernedStage,
  place: ReturnType<typeof placeOfStage>,
  dialIn: 'normal' | 'inverted',
  { gain_db, isEven, standing }: Wanted & Pick<SettingAdvice, 'standing'>,
): SettingAdvice {
  const agrees = stage.value?.kind === 'choice' ? stage.value.choice === dialIn : null;
  return {
    ...place,
    exact: dialIn,
    dialIn,
    agrees,
    residual: null,
    residual_s: null,
    residualPhase_rad: null,
    reason: reasonFor(gain_db, isEven),
    source:
      'the polarity that gives more bass at the seat: common practice, no source; predicted from the sum',
    standing,
    fix: dialInFix(place, dialIn, agrees, standing === 'computed'),
  };
}

function reasonFor(gain_db: number, isEven: boolean): string {
  if (isEven)
    return 'both polarities are predicted to give as much bass at the seat: listen and measure';
  if (gain_db === 0) return 'goes with the suggested crossover';
  return `predicted to give ${show.level(gain_db)} more bass at the seat than the other, once the delays are set`;
}
