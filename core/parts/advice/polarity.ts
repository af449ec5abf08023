// Advice on polarity: the one that gives more bass where mains and subwoofer overlap, for the crossover as dialled in.

import type { CrossoverFigures, SettingAdvice } from '../../setup.ts';
import { showFor } from '../../show.ts';
import type { GovernedStage } from '../../signal/governing.ts';
import { isInverting } from '../../signal/traced.ts';
import type { JudgedCase } from '../crossovers.ts';
import { dialInFix, placeOfStage } from './draft.ts';

const show = showFor({ length: 'metre', temperature: 'celsius', mass: 'kilogram' });

/** Below this the two polarities give as much: common practice, no source. */
const NOTHING_IN_IT_DB = 0.5;

/** One piece of advice for each polarity switch on the way to a subwoofer. */
export function polarityAdvice(
  crossovers: readonly CrossoverFigures[],
  judged: readonly JudgedCase[],
): readonly SettingAdvice[] {
  const told = new Set<string>();
  return crossovers.flatMap((figures, index) => {
    const of = judged[index]?.of;
    return (of?.subs ?? []).flatMap((sub): readonly SettingAdvice[] => {
      const path = of?.subPaths.find(({ target }) => target === sub.id);
      const stage = path?.stages.findLast(({ control }) => control?.kind === 'polarity');
      const key = stage?.settingPath?.join('.') ?? '';
      if (path === undefined || stage === undefined || told.has(key)) return [];
      const mainsInverted = of?.mainPaths[0]?.inverted ?? false;
      const others = path.inverted !== isInverting(stage);
      const choice = wantedPolarity(figures, path.inverted !== mainsInverted);
      if (choice === null) return [];
      told.add(key);
      const wanted = choice.isInverted !== (others !== mainsInverted);
      return [adviceFor(stage, wanted ? 'inverted' : 'normal', choice)];
    });
  });
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
  dialIn: 'normal' | 'inverted',
  { gain_db, isEven }: Wanted,
): SettingAdvice {
  const place = placeOfStage(stage);
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
    standing: 'start',
    fix: dialInFix(place, dialIn, agrees, false),
  };
}

function reasonFor(gain_db: number, isEven: boolean): string {
  if (isEven)
    return 'both polarities are predicted to give as much bass at the seat: listen and measure';
  if (gain_db === 0) return 'goes with the suggested crossover';
  return `predicted to give ${show.level(gain_db)} more bass at the seat than the other, once the delays are set`;
}
