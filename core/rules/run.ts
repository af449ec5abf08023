// Runs all rules over a Setup: the policy's severities, what people have accepted, one order for the findings.

import { pathText } from '../../schema/model/path.ts';
import type { Severity } from '../../schema/model/problem.ts';
import type { Acceptance } from '../../schema/model/room.ts';
import type { Finding } from '../finding.ts';
import type { Setup } from '../setup.ts';
import type { Show } from '../show.ts';
import { acceptanceFor } from './acceptance.ts';
import { RULES } from './index.ts';
import {
  type Fields,
  type Placeless,
  type Reads,
  type RecordedSetup,
  recordedSetup,
  stillStands,
} from './recordedSetup.ts';
import type { Found, Rule, RuleContext } from './rule.ts';

export interface RunOptions {
  /** ISO date, for what ends; null where nobody knows: then nothing ends. */
  readonly today: string | null;
}

/** A worker for one room's versions: a rule runs again only if something that it read last time is another object now. */
export type RuleRunner = (
  setup: Setup,
  show: Show,
  options: RunOptions,
  placeless?: Placeless,
) => readonly Finding[];

/**
 * All findings of a room.
 *
 * @param setup its own `findings` are not looked at
 * @returns in the order of `RULES`, within a rule in the order in which it found them; nothing twice
 */
export function runRules(setup: Setup, show: Show, options: RunOptions): readonly Finding[] {
  return runTheseRules(RULES, setup, show, options);
}

/** The same for other rules; the last ones see what the first ones found. */
export function runTheseRules(
  rules: readonly Rule[],
  setup: Setup,
  show: Show,
  options: RunOptions,
): readonly Finding[] {
  return createRuleRunner(rules)(setup, show, options);
}

/** A runner gives exactly what `runTheseRules` does; unchanged findings are the very same objects. */
export function createRuleRunner(rules: readonly Rule[] = RULES): RuleRunner {
  const codes = new Set(rules.map(({ code }) => code));
  const kept = new Map<Rule, Kept>();
  let names = '';
  return (setup, show, { today }, placeless) => {
    const findings: Finding[] = [];
    const told = new Set<string>();
    const recorded = recordedSetup(setup, () => [...findings], placeless ?? null);
    const namesNow = [...recorded.fields.keys()].join(' ');
    if (namesNow !== names) kept.clear(); // A field that came is no other value of one that was read.
    names = namesNow;
    for (const rule of rules) {
      const override = setup.room.policy.severity[rule.code] ?? null;
      if (override === 'off') continue;
      const inputs: Inputs = { show, today, override, accepted: setup.room.accepted };
      const last = kept.get(rule);
      const now =
        last !== undefined && stands(last, inputs, recorded.fields)
          ? last
          : found(rule, recorded, inputs, { today, codes });
      kept.set(rule, now);
      for (const { key, finding } of now.tellings) {
        if (told.has(key)) continue;
        told.add(key);
        findings.push(finding);
      }
    }
    return findings;
  };
}

/** What a rule's findings rest on besides what it reads of the Setup. */
interface Inputs {
  readonly show: Show;
  readonly today: string | null;
  readonly override: Severity | null;
  readonly accepted: readonly Acceptance[];
}

/** A finding, and the key under which it is told once. */
interface Telling {
  readonly key: string;
  readonly finding: Finding;
}

interface Kept {
  readonly tellings: readonly Telling[];
  readonly reads: Reads;
  readonly inputs: Inputs;
}

function stands({ inputs, reads }: Kept, now: Inputs, fields: Fields): boolean {
  return (
    inputs.show === now.show &&
    inputs.today === now.today &&
    inputs.override === now.override &&
    inputs.accepted === now.accepted &&
    stillStands(reads, fields)
  );
}

function found(
  rule: Rule,
  { setup, during }: RecordedSetup,
  inputs: Inputs,
  context: RuleContext,
): Kept {
  const { answer: tellings, reads } = during(() =>
    Array.from(rule.find(setup, inputs.show, context), (place): Telling => {
      const finding = toFinding(rule, place, inputs);
      const key = [finding.code, pathText(finding.path), finding.message].join('\n');
      return { key, finding };
    }),
  );
  return { tellings, reads, inputs };
}

function toFinding(
  rule: Rule,
  place: Found<string>,
  { override, accepted, today }: Inputs,
): Finding {
  const acceptance = acceptanceFor(accepted, rule.code, place.path, today);
  return {
    code: rule.code,
    severity: override ?? place.severity ?? rule.severity,
    path: place.path,
    message: place.fact,
    reason: rule.reason,
    advice: rule.advice,
    measured: place.measured ?? null,
    limit: place.limit ?? null,
    source: rule.source,
    related: place.related ?? [],
    fixes: place.fixes ?? [],
    accepted:
      acceptance === undefined
        ? null
        : { id: acceptance.id, because: acceptance.because, until: acceptance.until },
  };
}
