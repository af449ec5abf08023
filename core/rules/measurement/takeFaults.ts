// Faults of the takes' files as places of findings: what the rules of this folder share.

import type { Path } from '../../../schema/model/path.ts';
import type { MeasuredSession, TakeFault } from '../../measured/measuredFigures.ts';
import type { Setup } from '../../setup.ts';
import { defineRule, type Found, type Rule, type RuleOf } from '../rule.ts';

/** What is wrong with one recording's file, under the code of the rule that tells it. */
export interface FaultOfTake {
  readonly session: MeasuredSession;
  readonly take: Faulty;
  readonly fault: TakeFault;
}

interface Faulty {
  readonly take: string;
  readonly path: Path;
  readonly faults: readonly TakeFault[];
}

export function faultsOf({ measured }: Setup, code: string): readonly FaultOfTake[] {
  return (measured?.sessions ?? []).flatMap((session) =>
    recordingsOf(session).flatMap((take) =>
      take.faults.filter((fault) => fault.code === code).map((fault) => ({ session, take, fault })),
    ),
  );
}

/** Takes, noise, calibrator: whatever was read from a file. */
function recordingsOf({ takes, noise = [], calibrator }: MeasuredSession): readonly Faulty[] {
  return [
    ...takes,
    ...noise.map((one) => ({ ...one, take: one.recording })),
    ...(calibrator ? [{ ...calibrator, take: 'Calibrator' }] : []),
  ];
}

interface Fact {
  readonly take: string;
  readonly message: string;
}

/**
 * A rule that tells the faults of its code at a key of the take.
 *
 * @param key at which it is told
 */
export function faultRule(
  key: 'file' | 'sweep' | 'timing',
  about: Omit<RuleOf<never>, 'find' | 'message'>,
): Rule {
  return defineRule<Fact>({
    ...about,
    *find(setup): Iterable<Found<Fact>> {
      for (const { take, fault } of faultsOf(setup, about.code))
        yield {
          path: [...take.path, key],
          severity: fault.severity,
          fact: { take: take.take, message: fault.message },
        };
    },
    message: ({ take, message }) => `${take}: ${message}`,
  });
}
