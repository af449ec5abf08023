// The measurements held against the plan, take by take, and a verdict for each session.

import { logGrid_hz } from '../acoustics/frequencyGrid.ts';
import type { Setup } from '../setup.ts';
import { verdictsAcross } from './acrossSessions.ts';
import type { SessionEvidence } from './causeFit.ts';
import { comparedTakes } from './compareTakes.ts';
import type { MeasuredSession } from './measuredFigures.ts';
import { sessionPlan } from './plan.ts';
import { sessionData } from './sessionData.ts';
import { halfWidth_db } from './takeEnvelope.ts';
import type { VerificationFigures } from './verification.ts';

/** Where causes are tried: coarse enough to try many, fine enough for sixths of an octave. */
const TRIED = { from_hz: 20, to_hz: 250, perOctave: 12 } as const;

/** Pure: the same Setup gives the same answer. null where there are no takes or no field to hold them against. */
export function verified(setup: Setup): VerificationFigures | null {
  const { measured, field } = setup;
  if (!measured || !field) return null;
  return {
    takes: standing(setup).flatMap((one) => {
      const shown = sessionEvidence(setup, one, field.frequency_hz);
      return shown ? comparedTakes(setup, shown) : [];
    }),
    sessions: verdictsAcross(
      setup,
      tried(setup).filter(({ data }) => 0 < data.length),
    ),
  };
}

/** All sessions on the grid where causes are tried. */
export function tried(setup: Setup): readonly SessionEvidence[] {
  const tried_hz = [...logGrid_hz(TRIED.from_hz, TRIED.to_hz, TRIED.perOctave)];
  return standing(setup).flatMap((one) => sessionEvidence(setup, one, tried_hz) ?? []);
}

/** Sessions of another set-up say nothing of this one's plan. */
export function standing({ measured, record }: Setup): readonly MeasuredSession[] {
  const ties = new Map(record?.sessions.map(({ session, tie }) => [session, tie]));
  return (measured?.sessions ?? []).filter(({ session }) => ties.get(session) !== 'out_of_date');
}

function sessionEvidence(
  setup: Setup,
  { session, takes }: MeasuredSession,
  frequency_hz: readonly number[],
): SessionEvidence | null {
  const given = setup.room.sessions?.find(({ id }) => id === session);
  if (given === undefined) return null;
  const plan = sessionPlan(setup, given, frequency_hz);
  const found = sessionData(plan, takes, (one) => halfWidth_db(setup, one, plan.frequency_hz));
  return {
    plan,
    data: found.map(({ data }) => data),
    places: found.map(({ index }) => index),
  };
}
