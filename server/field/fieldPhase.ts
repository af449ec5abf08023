// The second phase as the session sees it: each analysis goes through it, and comes back with as much of the low end as is known.

import { createJudge } from '../../core/rules/judge.ts';
import type { Setup } from '../../core/setup.ts';
import type { Analysis } from '../analysis.ts';
import type { FieldAsk, FieldDesk, FieldReply } from './fieldJob.ts';
import { mergedField } from './mergedField.ts';

export interface FieldPhase {
  /** Never waits: with the field that is known by now; a newer one is begun where it is needed. */
  readonly known: (analysis: Analysis, today: string) => Analysis;
  /** Waits until the field is this analysis' own. */
  readonly whole: (analysis: Analysis, today: string) => Promise<Analysis>;
  /** While a hand moves something: null where there is no time for it. */
  readonly quick: (uri: string, of: Setup, ask: FieldAsk) => Promise<FieldReply | null>;
  readonly forget: (uri: string) => void;
}

/** Without it: for whoever needs no field. */
export const NO_FIELD: FieldPhase = {
  known: (analysis) => analysis,
  whole: (analysis) => Promise.resolve(analysis),
  quick: () => Promise.resolve(null),
  forget: () => undefined,
};

/**
 * Works it out only when asked for the whole, and then at once: for the command line.
 *
 * @param begun told before a room is worked out, which may take seconds
 */
export function fieldAtOnce(begun: (uri: string) => void): FieldPhase {
  let desk: FieldDesk | null = null;
  const known = new WeakMap<Analysis, Analysis>();
  return {
    known: (analysis) => analysis,
    whole: async (analysis, today) => {
      const { setup, source } = analysis;
      const last = known.get(analysis);
      if (setup === null || last) return last ?? analysis;
      begun(source.uri);
      // Loaded for a room only: gear and facilities have no low end.
      const { createFieldDesk } = await import('./fieldJob.ts');
      desk ??= createFieldDesk();
      const reply = desk.work({ uri: source.uri, of: setup });
      if (!('part' in reply)) throw new Error('fault' in reply ? reply.fault : 'no low end');
      const whole = mergedField(analysis, reply.part, today, createJudge());
      known.set(analysis, whole);
      return whole;
    },
    quick: () => Promise.resolve(null),
    forget: (uri) => desk?.forget(uri),
  };
}
