// Runs all rules over a Setup: the policy's severities, what people have accepted, one order for the findings.

import { pathText } from '../../schema/model/path.ts';
import type { Severity } from '../../schema/model/problem.ts';
import type { Finding } from '../finding.ts';
import type { Setup } from '../setup.ts';
import type { Show } from '../show.ts';
import { acceptanceFor } from './acceptance.ts';
import { RULES } from './index.ts';
import type { Found, Rule, RuleContext } from './rule.ts';

export interface RunOptions {
  /** ISO date, for what ends; null where nobody knows: then nothing ends. */
  readonly today: string | null;
}

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
  const context = { today: options.today, codes: new Set(rules.map(({ code }) => code)) };
  const findings: Finding[] = [];
  const told = new Set<string>();
  for (const rule of rules) {
    const override = setup.room.policy.severity[rule.code] ?? null;
    if (override === 'off') continue;
    for (const found of rule.find({ ...setup, findings: [...findings] }, show, context)) {
      const finding = toFinding(rule, found, override, setup, context);
      const key = [finding.code, pathText(finding.path), finding.message].join('\n');
      if (told.has(key)) continue;
      told.add(key);
      findings.push(finding);
    }
  }
  return findings;
}

function toFinding(
  rule: Rule,
  found: Found<string>,
  override: Severity | null,
  { room }: Setup,
  { today }: RuleContext,
): Finding {
  const acceptance = acceptanceFor(room.accepted, rule.code, found.path, today);
  return {
    code: rule.code,
    severity: override ?? found.severity ?? rule.severity,
    path: found.path,
    message: found.fact,
    reason: rule.reason,
    advice: rule.advice,
    measured: found.measured ?? null,
    limit: found.limit ?? null,
    source: rule.source,
    related: found.related ?? [],
    fixes: found.fixes ?? [],
    accepted:
      acceptance === undefined
        ? null
        : { id: acceptance.id, because: acceptance.because, until: acceptance.until },
  };
}
